//! What can be chosen in a setup, with the words of files and page.

use super::word::word;

word! {
    /// The braked side of the bicycle, from the rider's seat.
    Side { Left = "left" "Left", Right = "right" "Right" }
}
word! {
    /// How the caliper is held.
    Mount {
        SideLug = "side_lug" "Side lug: two holes along the axle",
        Post = "post" "Posts: two bolts square to the axle",
    }
}
word! {
    /// Which face of the tab the caliper's lug sits on.
    MatingFace { Inner = "inner" "Inner (towards the spokes)", Outer = "outer" "Outer" }
}
word! {
    /// How plate and tab come together.
    Build {
        OnePiece = "one_piece" "One piece",
        ButtWelded = "butt_welded" "Tab butt-welded to the dropout",
        OnExisting = "on_existing" "Tab welded to a dropout that is there",
    }
}
word! {
    /// Caliper bolt thread.
    BoltSize { M5 = "M5" "M5", M6 = "M6" "M6" }
}
word! {
    /// The braking that the part is judged under.
    LoadCase {
        IsoStatic = "iso_static" "Static test, 1000 N",
        IsoFatigue = "iso_fatigue" "Fatigue test, 600 N",
        Rider = "rider" "Rider braking as hard as grip allows",
        Own = "own" "A force of your own",
    }
}
word! {
    /// The wheel's size, which sets the arm of the brake test.
    TestWheel {
        ByRadius = "by_radius" "By the tyre radius",
        Inch24 = "24" "24 inch",
        Inch26 = "26" "26 inch",
        Inch27 = "650b" "27.5 inch, 650B",
        Inch29 = "700c" "29 inch, 700C",
    }
}
word! {
    /// What the bicycle is built for.
    Bicycle {
        City = "city" "City and trekking",
        YoungAdult = "young_adult" "Young adult",
        Mountain = "mtb" "Mountain",
        Racing = "racing" "Racing",
    }
}
word! {
    /// The stages of the fatigue test.
    Scheme { Iso = "iso" "One stage, 600 N", TwoStage = "two_stage" "Two stages, 600 N then 700 N" }
}
word! {
    /// Strength class of the caliper bolts, ISO 898-1.
    BoltClass { C88 = "8.8" "8.8", C109 = "10.9" "10.9", C129 = "12.9" "12.9" }
}
word! {
    /// Class of the welding filler.
    Electrode { E60 = "e60" "E60", E70 = "e70" "E70" }
}
word! {
    /// The rule a weld is judged by.
    WeldMethod {
        Asd = "asd" "Allowable stress, E60 or E70",
        Ec3Simplified = "ec3_simplified" "EN 1993-1-8, simplified",
        Ec3Directional = "ec3_directional" "EN 1993-1-8, directional",
    }
}
word! {
    /// Plate material.
    Material {
        MildSteel = "mild_steel" "Mild steel S235",
        CrMo4130 = "4130" "4130 chrome-moly, normalised",
        Stainless304 = "stainless_304" "Stainless 304",
        Aluminium6061 = "6061_t6" "Aluminium 6061-T6",
        A36 = "a36" "A36",
        ColdDrawn1018 = "1018_cd" "1018 cold drawn",
        HotRolled1018 = "1018_hr" "1018 hot rolled",
        Own = "own" "Own values",
    }
}
word! {
    /// Clearance of a bolt's hole, as ISO 273 calls it.
    HoleFit { Fine = "fine" "Fine", Medium = "medium" "Medium", Coarse = "coarse" "Coarse" }
}
word! {
    /// Class of general tolerances, as ISO 2768-1 calls it.
    ToleranceClass {
        Fine = "f" "f: fine",
        Medium = "m" "m: medium",
        Coarse = "c" "c: coarse",
        VeryCoarse = "v" "v: very coarse",
    }
}
word! {
    /// Kind of weld seam.
    WeldKind { Fillet = "fillet" "Fillet", Butt = "butt" "Butt" }
}
