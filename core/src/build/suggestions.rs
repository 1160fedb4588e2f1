//! What classes of general tolerances would give for the dimensions of the stack.

use super::classes::{ClassRow, iso_2768, iso_13920, iso_13920_angle, iso_13920_flatness};
use super::limits::own_spacing;
use super::stack::{Contribution, TAB_OFFSET, TAB_TILT};
use crate::plain::plain;
use crate::setup::Setup;

/// What classes of general tolerances would give for one dimension.
#[derive(Clone, Debug, PartialEq)]
pub struct Classes {
    /// Path of the tolerance.
    pub field: &'static str,
    /// What a builder calls it.
    pub label: &'static str,
    /// The size it is looked up by, mm.
    pub nominal: f64,
    /// The ± now.
    pub now: f64,
    /// `mm` or `°`.
    pub unit: &'static str,
    /// One for each class.
    pub rows: Vec<ClassRow>,
}

plain!(Classes { field, label, nominal, now, unit, rows });

/// What general tolerance classes give for the dimensions of the stack.
pub(super) fn classes(setup: &Setup, contributions: &[Contribution]) -> Vec<Classes> {
    let spacing = own_spacing(setup);
    let nominal_and_rows = |field: &str| match field {
        "tolerance.hub_width" => (setup.wheel.hub_width, iso_2768(setup.wheel.hub_width)),
        "tolerance.rotor_inset" => (setup.wheel.rotor_inset, iso_2768(setup.wheel.rotor_inset)),
        "tolerance.plate" => (setup.dropout.thickness, iso_2768(setup.dropout.thickness)),
        "tolerance.mount_depth" => {
            let depth = setup.caliper.mount_depth.abs();
            (depth, iso_2768(depth))
        }
        TAB_OFFSET => {
            // A step too small for the tables is held like the smallest they have.
            let offset = setup.tab.offset.abs();
            let mut rows = iso_2768(offset.max(0.5));
            rows.extend(iso_13920(offset.max(2.0)));
            (offset, rows)
        }
        TAB_TILT => {
            let mut rows = iso_13920_angle(spacing);
            rows.extend(
                iso_13920_flatness(spacing)
                    .into_iter()
                    .map(|row| ClassRow { tolerance: (row.tolerance / spacing).atan().to_degrees(), ..row }),
            );
            (spacing, rows)
        }
        _ => (0.0, Vec::new()),
    };
    let class = |one: &Contribution| {
        let (nominal, rows) = nominal_and_rows(one.field);
        let (field, label, unit) = (one.field, one.label, one.unit);
        (!rows.is_empty()).then_some(Classes { field, label, nominal, now: one.tolerance, unit, rows })
    };
    contributions.iter().filter_map(class).collect()
}
