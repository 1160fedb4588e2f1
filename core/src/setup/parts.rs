//! The field table: every input of a setup, written once.

use super::choices::{
    Bicycle, BoltClass, BoltSize, Build, Electrode, HoleFit, LoadCase, Material, MatingFace, Mount, Scheme, TestWheel,
    ToleranceClass, WeldKind, WeldMethod,
};
use super::field::{Kind, Unit, range};
use super::group::group;
use crate::plain::plain;

const MM: Unit = Unit::Mm;
const DEG: Unit = Unit::Degree;
const CALIPER_AXES: &[&str] = &["clockwise", "away from the axle"];
const LEG_AXES: &[&str] = &["behind the axle", "above the axle"];

/// Fields that came after the first setups were written: a setup without one means its default.
pub(super) const LATER: &[&str] = &[
    "dropout.slot_chamfer",
    "tab.old_edge",
    "cut.hole_fit",
    "cut.tolerance_class",
    "cut.least_edge",
    "cut.least_net",
    "load.own_force",
    "load.wheel",
    "load.wheelbase",
    "load.slope",
    "load.bicycle",
    "load.scheme",
    "load.nut_torque",
    "load.nut_factor",
    "load.metal_friction",
    "load.bolt_class",
    "load.bolt_torque",
    "load.yield_strength",
    "load.tensile_strength",
    "load.weld.electrode",
    "load.weld.method",
    "load.weld.category",
    "tack.accuracy",
    "tack.running",
];

/// One solid piece of a caliper, in the caliper frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// What the builder calls it.
    pub name: String,
    /// Convex outline, `[cw, rad]` corners in mm, either way round.
    pub outline: Vec<[f64; 2]>,
    /// How far it reaches inboard of the slot's middle, mm; negative where it starts outboard of it.
    pub inboard: f64,
    /// How far it reaches outboard of the slot's middle, mm.
    pub outboard: f64,
    /// Whether it sits flat on the tab, so that touching the plate is meant.
    pub bolted: bool,
}

plain!(Body { name, outline, inboard, outboard, bolted });

group! {
    /// Hub, rotor and rim.
    Wheel at "wheel" {
        hub_width: f64 = "Hub width", "Over the locknuts: from the inner face of one dropout to that of the other.",
            Kind::number(100.0, MM, range(40.0, 250.0), range(70.0, 200.0)).steps(0.5, &[100.0, 110.0, 115.0, 135.0]);
        rotor_inset: f64 = "Rotor inset", "From the dropout's inner face to the middle of the rotor's thickness. Measure it on the hub.",
            Kind::number(15.0, MM, range(2.0, 60.0), range(8.0, 25.0)).steps(0.1, &[]);
        rotor_diameter: f64 = "Rotor size", "Across the rotor's outer edge.",
            Kind::number(203.0, MM, range(90.0, 320.0), range(139.0, 230.0)).steps(1.0, &[140.0, 160.0, 180.0, 203.0, 220.0]);
        rotor_thickness: f64 = "Rotor thickness", "Of the braking band, with a micrometer or caliper gauge.",
            Kind::number(1.8, MM, range(0.5, 6.0), range(1.4, 2.6)).steps(0.1, &[]);
        track_width: f64 = "Braking band", "Radial width of the band that the pads rub on, from the rotor's edge inwards.",
            Kind::number(16.0, MM, range(4.0, 60.0), range(10.0, 22.0)).steps(0.5, &[]);
        tyre_radius: f64 = "Tyre radius", "Axle centre to the ground under load.",
            Kind::number(340.0, MM, range(80.0, 500.0), range(150.0, 380.0));
        flange_diameter: f64 = "Spoke flange", "Across the hub's spoke flange on the braked side.",
            Kind::number(58.0, MM, range(10.0, 200.0), range(30.0, 110.0));
        flange_inset: f64 = "Flange inset", "From the dropout's inner face to the outer face of the spoke flange.",
            Kind::number(28.0, MM, range(2.0, 120.0), range(12.0, 60.0)).steps(0.5, &[]);
        rim_diameter: f64 = "Rim at the spoke ends", "Diameter on which the spokes meet the rim.",
            Kind::number(560.0, MM, range(120.0, 900.0), range(250.0, 640.0));
        axle_diameter: f64 = "Axle", "Diameter where it sits in the dropout.",
            Kind::number(9.0, MM, range(4.0, 40.0), range(8.0, 20.0)).steps(0.5, &[]);
        nut_diameter: f64 = "Nut or lever", "Largest diameter of nut, washer or skewer end outside the dropout.",
            Kind::number(26.0, MM, range(5.0, 80.0), range(15.0, 45.0));
        nut_height: f64 = "Nut height", "How far nut or skewer stands out from the dropout.",
            Kind::number(12.0, MM, range(1.0, 80.0), range(4.0, 35.0));
    }
}

group! {
    /// The fork leg on the braked side.
    Fork at "fork" {
        tube_diameter: f64 = "Tube diameter", "Outside, where the dropout meets the tube.",
            Kind::number(31.75, MM, range(8.0, 90.0), range(16.0, 51.0)).steps(0.05, &[]);
        tube_wall: f64 = "Tube wall", "Wall thickness of the tube.",
            Kind::number(1.65, MM, range(0.4, 12.0), range(0.8, 3.5)).steps(0.05, &[]);
        tube_gap: f64 = "Between the tubes", "Inside to inside, square across the wheel.",
            Kind::number(112.0, MM, range(40.0, 300.0), range(80.0, 220.0)).steps(0.5, &[]);
        leg_angle: f64 = "Leg angle", "Leg to the ground, as a head angle is quoted.",
            Kind::number(65.0, DEG, range(20.0, 110.0), range(50.0, 80.0)).steps(0.5, &[]);
        axle_offset: f64 = "Axle offset", "How far the axle sits ahead of the tube's centre line, square to the leg.",
            Kind::number(0.0, MM, range(-100.0, 150.0), range(-20.0, 60.0)).steps(0.5, &[]);
        tube_end: f64 = "Tube end", "Axle centre up to the lower end of the tube, along the leg: the free length of the dropout.",
            Kind::number(20.0, MM, range(0.0, 250.0), range(5.0, 100.0)).steps(0.5, &[]);
    }
}

group! {
    /// The plate that carries the axle.
    Dropout at "dropout" {
        thickness: f64 = "Plate thickness", "Of dropout and tab.",
            Kind::number(6.0, MM, range(1.0, 25.0), range(4.0, 10.0)).steps(0.5, &[5.0, 6.0, 8.0]);
        eye_radius: f64 = "Eye radius", "Axle centre to the round outside of the plate.",
            Kind::number(20.0, MM, range(5.0, 80.0), range(12.0, 35.0)).steps(0.5, &[]);
        neck_width: f64 = "Neck width", "Of the strap that runs up the tube.",
            Kind::number(26.0, MM, range(5.0, 120.0), range(15.0, 45.0)).steps(0.5, &[]);
        weld_length: f64 = "Lap on the tube", "Length of plate that lies along the tube and is welded.",
            Kind::number(80.0, MM, range(5.0, 300.0), range(25.0, 150.0));
        slot_direction: f64 = "Slot direction", "Clock angle the axle slot opens towards: 0 up the leg, 90 back, 180 down.",
            Kind::number(180.0, DEG, range(-180.0, 180.0), range(-180.0, 180.0)).steps(5.0, &[-90.0, 90.0, 180.0]);
        slot_width: f64 = "Slot width", "Of the axle slot or hole.",
            Kind::number(9.5, MM, range(4.0, 42.0), range(8.0, 22.0)).steps(0.1, &[]);
        closed: bool = "Closed hole", "A hole instead of a slot: the wheel goes in sideways.",
            Kind::Flag { default: false };
        slot_chamfer: f64 = "Slot lead-in", "Chamfer at the slot's mouth.",
            Kind::number(1.0, MM, range(0.0, 10.0), range(0.0, 3.0)).steps(0.5, &[]).decimals(3);
    }
}

group! {
    /// One brake pad.
    Pad at "caliper.pad" {
        length: f64 = "Pad length", "Along the rotor's edge.",
            Kind::number(30.0, MM, range(3.0, 120.0), range(15.0, 50.0)).steps(0.5, &[]);
        height: f64 = "Pad height", "Towards the axle.",
            Kind::number(16.0, MM, range(3.0, 80.0), range(9.0, 28.0)).steps(0.5, &[]);
        edge_inset: f64 = "Pad inset", "From the rotor's edge in to the pad's outer edge when the caliper sits as meant.",
            Kind::number(0.5, MM, range(-10.0, 20.0), range(0.0, 3.0)).steps(0.1, &[]);
    }
}

group! {
    /// The cable housing or hose where it leaves the caliper.
    Line at "caliper.line" {
        exit: [f64; 3] = "Line exit", "Where the line leaves the caliper, from the pads' middle: clockwise, away from the axle, outboard.",
            Kind::Vector { default: Some([-24.0, 13.0, 30.0]) };
        direction: [f64; 3] = "Line direction", "Which way it points there: clockwise, away from the axle, outboard. Any length.",
            Kind::Vector { default: Some([-0.7, 0.714, 0.0]) };
        diameter: f64 = "Line diameter", "Of housing, hose or boot.",
            Kind::number(5.0, MM, range(1.0, 25.0), range(3.0, 12.0)).steps(0.5, &[]);
        min_bend_radius: f64 = "Tightest bend", "Smallest radius the line may be bent to; ask its maker.",
            Kind::number(40.0, MM, range(2.0, 400.0), range(20.0, 120.0)).steps(5.0, &[]);
    }
}

group! {
    /// The caliper's bolts and the tool that turns them.
    Bolt at "caliper.bolt" {
        size: BoltSize = "Bolt size", "Thread of the two caliper bolts.", BoltSize::kind(BoltSize::M6);
        tool_diameter: f64 = "Tool diameter", "Room the key or socket needs around the bolt's axis.",
            Kind::number(14.0, MM, range(2.0, 80.0), range(5.0, 30.0));
        tool_length: f64 = "Tool length", "Room the key or socket needs along the bolt's axis.",
            Kind::number(40.0, MM, range(5.0, 300.0), range(15.0, 120.0)).steps(5.0, &[]);
    }
}

fn default_bodies() -> Vec<Body> {
    let body = |name: &str, outline: &[[f64; 2]], inboard, outboard, bolted| Body {
        name: name.to_owned(),
        outline: outline.to_vec(),
        inboard,
        outboard,
        bolted,
    };
    let bridge = [[-38.0, 2.0], [38.0, 2.0], [38.0, 27.0], [29.0, 36.0], [-29.0, 36.0], [-38.0, 27.0]];
    let piston = [[-17.0, -18.0], [17.0, -18.0], [17.0, 14.0], [-17.0, 14.0]];
    let arm = [[12.0, -8.0], [-12.0, -8.0], [-24.0, 8.0], [-24.0, 18.0], [0.0, 18.0]];
    vec![
        body("bridge", &bridge, 12.0, 15.0, true),
        body("piston", &piston, 12.0, 34.0, false),
        body("arm", &arm, -26.0, 34.0, false),
    ]
}

group! {
    /// The caliper: a rigid, handed thing, given once in its own frame and never mirrored.
    Caliper at "caliper" {
        mount: Mount = "Mount", "How the caliper is bolted on.", Mount::kind(Mount::SideLug);
        holes: [[f64; 2]; 2] = "Holes", "Centres of the two holes from the pads' middle: clockwise, away from the axle.",
            Kind::Points { default: [[-25.5, 26.0], [25.5, 26.0]], axes: CALIPER_AXES, decimals: None };
        bolt_direction: Option<[f64; 3]> = "Bolt direction", "Posts only: the way the bolts go in: clockwise, away from the axle, outboard. Any length.",
            Kind::Vector { default: None };
        mount_depth: f64 = "Mount depth", "From the face that meets the tab (posts: the plane of the two bolt axes) inboard to the middle of the slot.",
            Kind::number(15.0, MM, range(-60.0, 60.0), range(-25.0, 25.0)).steps(0.1, &[]);
        mating_face: MatingFace = "Tab face", "The face of the tab that the caliper sits on.", MatingFace::kind(MatingFace::Inner);
        throat: f64 = "Throat", "From the pads' outer edge to the inside of the bridge over the rotor.",
            Kind::number(3.0, MM, range(0.0, 40.0), range(1.0, 10.0)).steps(0.1, &[]);
        lateral_adjust: f64 = "Sideways adjustment", "How far the caliper can be moved either way on its bolts: only millimetres.",
            Kind::number(2.0, MM, range(0.0, 15.0), range(0.5, 4.0)).steps(0.1, &[]);
        bodies: Vec<Body> = "Bodies", "The caliper as a few convex pieces, seen on its outboard face.",
            Kind::Bodies { default: default_bodies };
    } with {
        pad: Pad, "The brake pads.";
        line: Line, "The line's exit.";
        bolt: Bolt, "The bolts.";
    }
}

group! {
    /// The tab that carries the caliper, and where it sits.
    Tab at "tab" {
        clock: f64 = "Clock angle", "Of the pads about the axle: 0 up the leg, 90 straight back, −90 straight ahead.",
            Kind::number(28.0, DEG, range(-180.0, 180.0), range(-180.0, 180.0)).steps(0.5, &[-90.0, 0.0, 45.0, 90.0]);
        offset: f64 = "Tab offset sideways", "Tab plane against dropout plane, outboard positive; 0 keeps both in one plane.",
            Kind::number(0.0, MM, range(-40.0, 40.0), range(-8.0, 8.0)).steps(0.5, &[0.0]);
        reach: f64 = "Tab offset outward", "Moves the caliper away from the axle beyond full pad cover: room at the tube for less pad on the rotor.",
            Kind::number(0.0, MM, range(-20.0, 20.0), range(-3.0, 5.0)).steps(0.5, &[0.0]);
        edge: f64 = "Hole to edge", "From a caliper hole's centre to the tab's edge.",
            Kind::number(9.0, MM, range(2.0, 40.0), range(6.0, 16.0)).steps(0.5, &[]);
        build: Build = "Build", "Tab and dropout from one plate, or the tab welded on.", Build::kind(Build::OnePiece);
        weld_gap: f64 = "Weld gap", "Small gap left for the weld between butted pieces.",
            Kind::number(1.6, MM, range(0.0, 10.0), range(0.5, 3.0)).steps(0.1, &[]);
        fillet_radius: f64 = "Fillet radius", "Rounding of the plate's inner corners.",
            Kind::number(6.0, MM, range(0.0, 60.0), range(3.0, 20.0)).steps(0.5, &[]);
        old_edge: [[f64; 2]; 2] = "Old plate's edge", "Two points of the edge that the tab is welded to: behind and above the axle.",
            Kind::Points { default: [[13.0, 20.0], [13.0, 100.0]], axes: LEG_AXES, decimals: Some(3) };
    }
}

const fn wanted(default: f64) -> Kind {
    Kind::number(default, MM, range(0.0, 50.0), range(0.5, 10.0)).steps(0.5, &[])
}

group! {
    /// The smallest gaps the builder accepts.
    Required at "required" {
        tube: f64 = "To the tube", "Caliper or tab to the fork tube.", wanted(3.0);
        plate: f64 = "To the plate", "Unbolted caliper parts to dropout and tab.", wanted(1.5);
        spokes: f64 = "To the spokes", "Caliper to the spokes.", wanted(2.0);
        nut: f64 = "To the nut", "Caliper or tube to the axle nut or skewer.", wanted(2.0);
        rotor: f64 = "To the rotor", "Rotor to bridge, plate and tube.", wanted(2.0);
        tool: f64 = "For the tool", "Key or socket on the caliper bolts to the tube.", wanted(1.0);
        line: f64 = "To the line", "Line to tube, rotor and spokes.", wanted(2.0);
    }
}

const fn plus_minus(default: f64, plausible_high: f64) -> Kind {
    Kind::number(default, MM, range(0.0, 10.0), range(0.0, plausible_high)).steps(0.05, &[])
}

group! {
    /// How well each dimension is held, ± around its value.
    Tolerance at "tolerance" {
        hub_width: f64 = "Hub width ±", "Spread of the width over the locknuts.", plus_minus(0.3, 2.0);
        rotor_inset: f64 = "Rotor inset ±", "Spread of the rotor's place on the hub.", plus_minus(0.3, 2.0);
        plate: f64 = "Plate ±", "Spread of the plate's thickness.", plus_minus(0.1, 1.0);
        tab_offset: f64 = "Tab offset ±", "How true the tab is welded sideways.", plus_minus(0.5, 3.0);
        mount_depth: f64 = "Mount depth ±", "Spread of the caliper's mounting face.", plus_minus(0.2, 1.0);
        runout: f64 = "Rotor runout ±", "How far the rotor swings from side to side.", plus_minus(0.15, 1.0);
        tab_tilt: f64 = "Tab tilt ±", "How square the tab is welded.",
            Kind::number(0.3, DEG, range(0.0, 10.0), range(0.0, 3.0)).steps(0.05, &[]);
    }
}

group! {
    /// How plate and holes are cut.
    Cut at "cut" {
        hole_fit: HoleFit = "Hole fit", "Clearance holes after ISO 273.", HoleFit::kind(HoleFit::Medium);
        tolerance_class: ToleranceClass = "Tolerances", "General tolerances after ISO 2768-1.",
            ToleranceClass::kind(ToleranceClass::Medium);
        least_edge: f64 = "Least edge", "Least material from a hole's rim to the plate's edge.",
            Kind::number(5.0, MM, range(0.0, 40.0), range(3.0, 15.0)).steps(0.5, &[]).decimals(3);
        least_net: f64 = "Least section", "Least width of plate beside slot and holes, of neck and tab.",
            Kind::number(8.0, MM, range(0.0, 80.0), range(5.0, 25.0)).steps(0.5, &[]).decimals(3);
    }
}

group! {
    /// A weld seam.
    Weld at "load.weld" {
        leg: f64 = "Weld leg", "Leg length of the fillet.",
            Kind::number(4.0, MM, range(0.5, 20.0), range(2.0, 10.0)).steps(0.5, &[]);
        kind: WeldKind = "Weld kind", "Fillet along the lap, or butt across the joint.", WeldKind::kind(WeldKind::Fillet);
        electrode: Electrode = "Filler", "By its strength class.", Electrode::kind(Electrode::E70);
        method: WeldMethod = "Weld rule", "What welds are judged by.", WeldMethod::kind(WeldMethod::Asd);
        category: f64 = "Fatigue category", "Stress range that the weld bears two million times.",
            Kind::number(36.0, Unit::Megapascal, range(5.0, 250.0), range(30.0, 125.0)).decimals(3);
    }
}

group! {
    /// The braking the part is judged under.
    Load at "load" {
        case: LoadCase = "Brake case", "Which braking to judge by.", LoadCase::kind(LoadCase::IsoStatic);
        mass: f64 = "Mass", "Rider, bicycle and cargo.",
            Kind::number(110.0, Unit::Kg, range(10.0, 1000.0), range(60.0, 350.0)).steps(5.0, &[]);
        cog_height: f64 = "Height of the centre of gravity", "Above the ground.",
            Kind::number(1100.0, MM, range(100.0, 3000.0), range(400.0, 1500.0)).steps(10.0, &[]);
        cog_to_front: f64 = "Centre of gravity behind the front contact", "Along the ground.",
            Kind::number(600.0, MM, range(-500.0, 4000.0), range(300.0, 1500.0)).steps(10.0, &[]);
        friction: f64 = "Tyre grip", "Friction of tyre on road.",
            Kind::number(0.9, Unit::None, range(0.05, 2.0), range(0.3, 1.1)).steps(0.05, &[]);
        pad_friction: f64 = "Pad friction", "Friction of pad on rotor.",
            Kind::number(0.4, Unit::None, range(0.05, 1.5), range(0.25, 0.6)).steps(0.05, &[]);
        material: Material = "Plate material", "Of dropout and tab.", Material::kind(Material::MildSteel);
        own_force: f64 = "Own force", "At the ground, backward and square to the leg.",
            Kind::number(500.0, Unit::Newton, range(0.0, 10000.0), range(100.0, 2500.0)).steps(50.0, &[]).decimals(3);
        wheel: TestWheel = "Wheel size", "Sets the arm of the brake test.", TestWheel::kind(TestWheel::ByRadius);
        wheelbase: f64 = "Wheelbase", "Between the wheels' contacts.",
            Kind::number(1050.0, MM, range(300.0, 5000.0), range(850.0, 2800.0)).steps(10.0, &[]).decimals(3);
        slope: f64 = "Slope", "Of the road, downhill negative.",
            Kind::number(0.0, Unit::Percent, range(-50.0, 50.0), range(-20.0, 20.0)).decimals(3);
        bicycle: Bicycle = "Bicycle", "Sets the cycles of the fatigue test.", Bicycle::kind(Bicycle::City);
        scheme: Scheme = "Fatigue test", "As in the international text, or in two stages.", Scheme::kind(Scheme::Iso);
        nut_torque: f64 = "Nut torque", "Of the axle nuts; for a skewer what would clamp as hard.",
            Kind::number(30.0, Unit::NewtonMetre, range(0.0, 200.0), range(10.0, 60.0)).decimals(3);
        nut_factor: f64 = "Torque factor", "Torque over force and diameter: 0.2 dry, 0.15 oiled, 0.3 rough.",
            Kind::number(0.2, Unit::None, range(0.05, 0.6), range(0.1, 0.35)).steps(0.01, &[]).decimals(3);
        metal_friction: f64 = "Metal friction", "Of clamped metal faces.",
            Kind::number(0.15, Unit::None, range(0.0, 1.0), range(0.1, 0.4)).steps(0.01, &[]).decimals(3);
        bolt_class: BoltClass = "Bolt class", "Stamped on the head.", BoltClass::kind(BoltClass::C88);
        bolt_torque: f64 = "Bolt torque", "Of the caliper bolts.",
            Kind::number(8.0, Unit::NewtonMetre, range(0.0, 60.0), range(4.0, 16.0)).steps(0.5, &[]).decimals(3);
        yield_strength: f64 = "Own yield", "Of the plate, where the material is your own.",
            Kind::number(235.0, Unit::Megapascal, range(20.0, 2500.0), range(100.0, 1200.0)).decimals(3);
        tensile_strength: f64 = "Own tensile strength", "Of the plate, where the material is your own.",
            Kind::number(360.0, Unit::Megapascal, range(30.0, 3000.0), range(150.0, 1500.0)).decimals(3);
    } with {
        weld: Weld, "The weld to the tube.";
    }
}
