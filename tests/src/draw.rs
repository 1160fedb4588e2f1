//! Setups drawn over the whole hard ranges of the field table, from any source of numbers.

use tabwright_core::{Given, Setup, describe_fields};

/// Where the numbers of a drawn setup come from.
pub trait Source {
    /// Any 32 bits.
    fn bits(&mut self) -> u32;

    /// A number from 0 up to 1.
    fn share(&mut self) -> f64 {
        f64::from(self.bits()) / (f64::from(u32::MAX) + 1.0)
    }

    /// A whole number below `count`, which is not 0.
    fn below(&mut self, count: usize) -> usize {
        self.bits() as usize % count
    }

    /// A number from `low` to `high`, now and then one of the two.
    fn between(&mut self, low: f64, high: f64) -> f64 {
        match self.below(32) {
            0 => low,
            1 => high,
            _ => low + (high - low) * self.share(),
        }
    }
}

/// Numbers that are the same in every run: mulberry32, in the public domain.
#[derive(Clone, Debug)]
pub struct Seeded(pub u32);

impl Source for Seeded {
    fn bits(&mut self) -> u32 {
        self.0 = self.0.wrapping_add(0x6d2b_79f5);
        let mut mixed = (self.0 ^ (self.0 >> 15)).wrapping_mul(self.0 | 1);
        mixed ^= mixed.wrapping_add((mixed ^ (mixed >> 7)).wrapping_mul(mixed | 61));
        mixed ^ (mixed >> 14)
    }
}

/// Numbers out of a row of bytes; when that is at its end, noughts.
#[derive(Clone, Debug)]
pub struct Bytes<'a>(pub &'a [u8]);

impl Source for Bytes<'_> {
    fn bits(&mut self) -> u32 {
        let (here, rest) = self.0.split_at(self.0.len().min(4));
        self.0 = rest;
        here.iter().enumerate().fold(0, |bits, (index, byte)| bits | u32::from(*byte) << (8 * index))
    }
}

/// Lengths that belong to bodies keep to this many decimals.
const BODY_DECIMALS: i32 = 6;
/// How far points of the caliper frame may lie from its origin, mm.
const COORDINATE: f64 = 300.0;

/// A setup over the whole hard ranges, or nothing where what was drawn does not go together after a few changes.
///
/// `share` is about the share of fields that differ from the defaults: 1 for any setup at all, less for one that is nearer
/// to a builder's.
pub fn setup(source: &mut impl Source, share: f64) -> Option<Setup> {
    let mut given = Given::from(&Setup::default());
    for field in describe_fields().iter().flat_map(|group| &group.fields) {
        if source.share() >= share {
            continue;
        }
        let drawn = match field.kind {
            "number" => field.hard.map(|[low, high]| number(source, low, high)),
            "choice" => {
                let count = field.choices.len().max(1);
                field.choices.get(source.below(count)).map(|choice| Given::from(choice.value))
            }
            "flag" => Some(Given::Flag(source.below(2) == 1)),
            "vector" => Some(point(source, 3)),
            "points" => Some(Given::List(vec![point(source, 2), point(source, 2)])),
            "bodies" => Some(bodies(source)),
            _ => None,
        };
        if let Some(drawn) = drawn {
            put(&mut given, field.key, drawn);
        }
    }
    together(source, given)
}

/// Whole numbers and short decimals are what builders type, and where ties and touching faces come from.
fn number(source: &mut impl Source, low: f64, high: f64) -> Given {
    let value = source.between(low, high);
    let scale = [1.0, 10.0, 1000.0, 0.0][source.below(4)];
    Given::Number(if scale == 0.0 { value } else { ((value * scale).round() / scale).clamp(low, high) })
}

fn point(source: &mut impl Source, dimensions: usize) -> Given {
    let reach = [COORDINATE, 60.0, 1.0][source.below(3)];
    Given::List((0..dimensions).map(|_| number(source, -reach, reach)).collect())
}

fn rounded(value: f64) -> Given {
    let scale = 10.0_f64.powi(BODY_DECIMALS);
    Given::Number((value * scale).round_ties_even() / scale)
}

fn bodies(source: &mut impl Source) -> Given {
    let count = 1 + source.below(8);
    Given::List((0..count).map(|index| body(source, index, 48 / count)).collect())
}

fn body(source: &mut impl Source, index: usize, most_corners: usize) -> Given {
    let corners = 3 + source.below(most_corners.min(24) - 2);
    let reach = [60.0, 140.0][source.below(2)];
    let (x, y) = (source.between(-reach, reach), source.between(-reach, reach));
    let (across, up) = (source.between(1.0, reach), source.between(1.0, reach));
    let corner = |index: usize, off: f64| {
        let (sin, cos) = ((index as f64 + 0.3 * off) / corners as f64 * std::f64::consts::TAU).sin_cos();
        Given::List(vec![rounded(x + across * cos), rounded(y + up * sin)])
    };
    let outline = Given::List((0..corners).map(|index| corner(index, source.share())).collect());
    let inboard = source.between(-reach, reach);
    let outboard = source.between((0.1 - inboard).max(-reach), COORDINATE);
    Given::object(vec![
        ("name".to_owned(), Given::Text(format!("body {index}"))),
        ("outline".to_owned(), outline),
        ("inboard".to_owned(), rounded(inboard)),
        ("outboard".to_owned(), rounded(outboard.max(0.1 - inboard))),
        ("bolted".to_owned(), Given::Flag(source.below(2) == 1)),
    ])
}

/// Lays a value at a dotted path.
fn put(given: &mut Given, path: &str, value: Given) {
    let Given::Object(members) = given else { return };
    let (name, rest) = path.split_once('.').map_or((path, None), |(name, rest)| (name, Some(rest)));
    if let Some((_, member)) = members.iter_mut().find(|(key, _)| key == name) {
        match rest {
            Some(rest) => put(member, rest, value),
            None => *member = value,
        }
    }
}

/// The setup, after fields that do not go together were drawn again, each within its range.
fn together(source: &mut impl Source, mut given: Given) -> Option<Setup> {
    const TRIES: usize = 24;
    let fields: Vec<_> = describe_fields().into_iter().flat_map(|group| group.fields).collect();
    for _ in 0..TRIES {
        let problems = match Setup::read(given.clone()) {
            Ok((setup, _)) => return Some(setup),
            Err(problems) => problems,
        };
        for problem in problems {
            let field = fields
                .iter()
                .find(|field| problem.field == field.key || problem.field.starts_with(&format!("{}.", field.key)));
            let field = field?;
            match (field.kind, field.hard) {
                ("number", Some([low, high])) => {
                    let near = low + (high - low) * 0.3 * source.share();
                    put(&mut given, field.key, Given::Number(near));
                }
                ("vector", _) => put(&mut given, field.key, Given::List([0.0, -1.0, 0.25].map(Given::Number).to_vec())),
                ("points", _) => put(
                    &mut given,
                    field.key,
                    Given::List(
                        [-20.5, 20.5].map(|cw| Given::List(vec![Given::Number(cw), Given::Number(2.0)])).to_vec(),
                    ),
                ),
                ("bodies", _) => put(&mut given, field.key, bodies(source)),
                _ => return None,
            }
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nearly_every_draw_is_a_setup_and_they_reach_both_ends_of_the_ranges() {
        let mut source = Seeded(1);
        let drawn: Vec<Setup> = (0..2000).filter_map(|_| setup(&mut source, 1.0)).collect();
        assert!(drawn.len() > 1900, "only {} of 2000", drawn.len());
        let rotors = || drawn.iter().map(|setup| setup.wheel.rotor_diameter);
        assert!(rotors().any(|rotor| rotor == 90.0) && rotors().any(|rotor| rotor == 320.0));
    }

    #[test]
    fn any_bytes_are_good_enough() {
        assert!(setup(&mut Bytes(&[]), 1.0).is_some());
        assert!(setup(&mut Bytes(&[255; 1000]), 1.0).is_some());
    }
}
