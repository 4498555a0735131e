//! The registry of dotted names: unit, meaning and source of everything that is computed.
//!
//! A stage can only emit a number through a [`Name`], so a name that is not registered cannot appear.
//! A single capital letter in a pattern stands for a name of the job file: J a joint, C a load case,
//! M a member, S a section or a set of coupons, A an adhesive.

use quantity::Kind;

/// A registered name.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Name {
    /// The dotted pattern.
    pub pattern: &'static str,
    /// The unit of the number.
    pub unit: &'static str,
    /// The kind of quantity, where the kind has units in both systems.
    pub kind: Option<Kind>,
    /// What it means.
    pub meaning: &'static str,
    /// By whom, or by which standard.
    pub source: &'static str,
}

impl Name {
    /// The dotted name for given names of the job file, in the order of the capital letters.
    pub fn fill(&self, names: &[&str]) -> String {
        let mut names = names.iter();
        let parts = self
            .pattern
            .split('.')
            .map(|part| if is_placeholder(part) { names.next().copied().unwrap_or(part) } else { part });
        parts.collect::<Vec<_>>().join(".")
    }

    /// Whether a dotted name is one of this pattern.
    pub fn matches(&self, dotted: &str) -> bool {
        let pattern: Vec<&str> = self.pattern.split('.').collect();
        let parts: Vec<&str> = dotted.split('.').collect();
        pattern.len() == parts.len()
            && pattern.iter().zip(&parts).all(|(expected, part)| is_placeholder(expected) || expected == part)
    }
}

fn is_placeholder(part: &str) -> bool {
    part.len() == 1 && part.starts_with(|c: char| c.is_ascii_uppercase())
}

macro_rules! registry {
    ($(#[doc = $title:literal] $list:ident { $( $name:ident = $pattern:literal, $unit:literal, $kind:expr, $meaning:literal, $source:literal; )+ })+) => {
        $($(
            #[doc = $meaning]
            pub const $name: Name = Name { pattern: $pattern, unit: $unit, kind: $kind, meaning: $meaning, source: $source };
        )+
        #[doc = $title]
        pub const $list: &[Name] = &[$($name),+];
        )+
    };
}

registry! {
    /// Names of single numbers.
    NUMBERS {
        MEAN_SHEAR = "join.J.C.mean_shear", "MPa", Some(Kind::Stress), "mean shear: load over bonded area", "definition";
        MEAN_PEEL = "join.J.C.mean_peel", "MPa", Some(Kind::Stress), "mean peel: normal load over bonded area", "definition";
        VOLKERSEN_PEAK_SHEAR = "join.J.C.volkersen_peak_shear", "MPa", Some(Kind::Stress), "peak shear, bars without bending", "Volkersen 1938";
        TOM_PEAK_SHEAR = "join.J.C.tsai_oplinger_morton_peak_shear", "MPa", Some(Kind::Stress), "peak shear, bars that shear through their thickness", "Tsai, Oplinger, Morton 1998";
        GOLAND_REISSNER_K = "join.J.C.goland_reissner_k", "-", None, "edge moment factor of the balanced lap", "Goland and Reissner 1944";
        GOLAND_REISSNER_PEAK_SHEAR = "join.J.C.goland_reissner_peak_shear", "MPa", Some(Kind::Stress), "peak shear of the balanced lap with bending", "Goland and Reissner 1944";
        GOLAND_REISSNER_PEAK_PEEL = "join.J.C.goland_reissner_peak_peel", "MPa", Some(Kind::Stress), "peak peel of the balanced lap with bending", "Goland and Reissner 1944";
        PEAK_SHEAR = "join.J.C.peak_shear", "MPa", Some(Kind::Stress), "greatest shear along the bondline at the case's load, linear strip", "linear strip, two beams on an elastic layer";
        PEAK_PEEL = "join.J.C.peak_peel", "MPa", Some(Kind::Stress), "greatest peel along the bondline at the case's load, linear strip", "linear strip, two beams on an elastic layer";
        PEAK_SHEAR_FREE = "join.J.C.peak_shear_free", "MPa", Some(Kind::Stress), "greatest shear at the worst point of the perimeter, walls free to bend", "linear strip, two beams on an elastic layer";
        PEAK_SHEAR_HELD = "join.J.C.peak_shear_held", "MPa", Some(Kind::Stress), "greatest shear at the worst point of the perimeter, walls held flat", "linear strip, two bars on an elastic layer";
        STIFFNESS = "join.J.C.stiffness", "N/mm per mm", None, "load per width over the displacement between the gripped ends", "linear strip, two beams on an elastic layer";
        EDGE_MOMENT_LEFT = "join.J.C.edge_moment_left", "N·mm/mm", None, "moment in the upper plate at the left end of the overlap, per width", "linear strip, two beams on an elastic layer";
        EDGE_MOMENT_RIGHT = "join.J.C.edge_moment_right", "N·mm/mm", None, "moment in the lower plate at the right end of the overlap, per width", "linear strip, two beams on an elastic layer";
        LINE_LOAD = "join.J.C.line_load", "N/mm", Some(Kind::LineLoad), "load per width", "definition";
        ONSET_FACTOR = "join.J.C.onset_factor", "-", None, "multiple of the case's load at which the bond first gives, strengths as written; it depends on the layer's stiffness and is no damage that one would see", "strip to failure";
        CAPACITY_FACTOR = "join.J.C.capacity_factor", "-", None, "multiple of the case's load at which the bond gives way, strengths as written, no factors", "strip to failure";
        CAPACITY_FACTOR_LOW = "join.J.C.capacity_factor_low", "-", None, "the same with the lower of the two sets of values that are known of the adhesive", "strip to failure; ranges of classes by common practice";
        CAPACITY_FACTOR_HIGH = "join.J.C.capacity_factor_high", "-", None, "the same with the upper of the two", "strip to failure; ranges of classes by common practice";
        CAPACITY_FACTOR_FREE = "join.J.C.capacity_factor_free", "-", None, "the same at the worst point of the perimeter, walls free to bend", "strips to failure around the perimeter";
        CAPACITY_FACTOR_HELD = "join.J.C.capacity_factor_held", "-", None, "the same at the worst point of the perimeter, walls held flat", "strips to failure around the perimeter";
        FAILURE_PROBABILITY = "join.J.C.failure_probability", "-", None, "chance that the bond of a lap, double lap, sleeve or socket gives way under the case's load with the job's scatter, the greatest over normal, lognormal and Weibull tails; only when asked", "importance sampling toward the design point on the strip to failure";
        FAILURE_PROBABILITY_LOW = "join.J.C.failure_probability_low", "-", None, "least lower end of the 95 % intervals of that chance over the tails", "importance sampling toward the design point on the strip to failure";
        FAILURE_PROBABILITY_HIGH = "join.J.C.failure_probability_high", "-", None, "greatest upper end of the 95 % intervals of that chance over the tails", "importance sampling toward the design point on the strip to failure";
        CAPACITY_DISPLACEMENT = "join.J.C.capacity_displacement", "mm", Some(Kind::Length), "displacement of the gripped ends at the capacity", "strip to failure";
        SPENT_OPENING = "join.J.C.spent_opening", "N·mm/mm", None, "work spent on opening the bond until the end of the computed way, per width", "strip to failure";
        SPENT_SHEAR = "join.J.C.spent_shear", "N·mm/mm", None, "work spent on shearing the bond, per width", "strip to failure";
        SPENT_RIVETS = "join.J.C.spent_rivets", "N·mm/mm", None, "work spent by the rivets, per width", "strip to failure";
        SPENT_PLATES = "join.J.C.spent_plates", "N·mm/mm", None, "work spent by yielding plates, per width", "strip to failure";
        HART_SMITH_CAPACITY = "join.J.C.hart_smith_capacity", "N/mm", Some(Kind::LineLoad), "whole inner load per width at which a double lap gives way, strengths as written", "Hart-Smith 1973";
        OVERLAP_NEEDED = "join.J.C.overlap_needed", "mm", Some(Kind::Length), "overlap of a double lap with two plastic zones and an elastic trough", "Hart-Smith 1973";
        BOND_LOST_FACTOR = "join.J.C.bond_lost_factor", "-", None, "multiple of the case's load at which the first rivet reaches its design resistance, the bond taken away", "rivet group by stiffness, partial factor included";
        RIVET_SHARE = "join.J.C.rivet_share", "-", None, "share of the load that the rivets carry while the bond holds", "rivets as springs in Volkersen's lap";
        BOND_DAMAGE = "join.J.C.bond_damage", "-", None, "share of the bond's life that the spectrum uses, by nominal shear at its worst point", "Palmgren 1924, Miner 1945; your line of tests";
        RIVET_DAMAGE = "join.J.C.rivet_damage", "-", None, "share of the life of the most loaded rivet that the spectrum uses while the bond holds", "Palmgren 1924, Miner 1945; your line of tests";
        HOLE_DAMAGE = "join.J.C.hole_damage", "-", None, "share of the life that the spectrum uses at the rivet holes of the worse part, by nominal stress in the net section", "Palmgren 1924, Miner 1945; your line of tests";
        SUSTAINED_RESERVE = "join.J.C.sustained_reserve", "-", None, "reserve factor of the bond under the part of the load that stays on", "nominal check with your lasting share of the strength";
        INTACT_ELASTIC_FACTOR = "join.J.C.intact_elastic_factor", "-", None, "multiple of the case's load at which the intact member's worst fibre reaches its proof strength", "beam theory";
        INTACT_PLASTIC_FACTOR = "join.J.C.intact_plastic_factor", "-", None, "multiple of the case's load at which the intact member is fully plastic, linear interaction", "beam theory";
        BOND_LOST_PLASTIC_FACTOR = "join.J.C.bond_lost_plastic_factor", "-", None, "multiple of the case's load that the rivets carry when all of them yield; only where the walls yield before the rivets shear", "limit analysis, partial factor included";
        EFFICIENCY = "join.J.C.efficiency", "-", None, "capacity of the repaired member over that of the intact one", "nominal bond and elastic parts";
        CUT_AXIAL = "join.J.C.axial", "N", Some(Kind::Force), "axial force N at the cut", "statics";
        CUT_SHEAR_Y = "join.J.C.shear_y", "N", Some(Kind::Force), "shear force along local y at the cut", "statics";
        CUT_SHEAR_Z = "join.J.C.shear_z", "N", Some(Kind::Force), "shear force along local z at the cut", "statics";
        CUT_MOMENT_Y = "join.J.C.moment_y", "N·mm", Some(Kind::Moment), "moment about local y through the centroid at the cut", "statics";
        CUT_MOMENT_Z = "join.J.C.moment_z", "N·mm", Some(Kind::Moment), "moment about local z through the centroid at the cut", "statics";
        CUT_TORQUE = "join.J.C.torque", "N·mm", Some(Kind::Moment), "torque about the shear centre at the cut", "statics";
        SECTION_AREA = "section.S.area", "mm²", Some(Kind::Area), "area", "thin-walled section";
        SECTION_I_Y = "section.S.i_y", "mm⁴", Some(Kind::SecondMoment), "second moment about the y axis through the centroid", "thin-walled section";
        SECTION_I_Z = "section.S.i_z", "mm⁴", Some(Kind::SecondMoment), "second moment about the z axis through the centroid", "thin-walled section";
        SECTION_I_YZ = "section.S.i_yz", "mm⁴", Some(Kind::SecondMoment), "product moment about the axes through the centroid", "thin-walled section";
        SECTION_TORSION = "section.S.torsion_constant", "mm⁴", Some(Kind::SecondMoment), "Saint-Venant torsion constant", "Bredt 1896, Batho 1916";
        SECTION_CENTROID_Y = "section.S.centroid_y", "mm", Some(Kind::Length), "centroid, y in the section's own coordinates", "thin-walled section";
        SECTION_CENTROID_Z = "section.S.centroid_z", "mm", Some(Kind::Length), "centroid, z in the section's own coordinates", "thin-walled section";
        SECTION_SHEAR_CENTRE_Y = "section.S.shear_centre_y", "mm", Some(Kind::Length), "shear centre, y in the section's own coordinates", "thin-walled section";
        SECTION_SHEAR_CENTRE_Z = "section.S.shear_centre_z", "mm", Some(Kind::Length), "shear centre, z in the section's own coordinates", "thin-walled section";
        SECTION_SHEAR_AREA_Y = "section.S.shear_area_y", "mm²", Some(Kind::Area), "shear area for a force along y", "energy of the shear flow";
        SECTION_SHEAR_AREA_Z = "section.S.shear_area_z", "mm²", Some(Kind::Area), "shear area for a force along z", "energy of the shear flow";
        RESERVE = "join.J.C.reserve", "-", None, "reserve factor of the bond at 23 °C, dry: the lower of the nominal check and the strip to failure, as far as they are known", "EN 1999-1-1, nominal check; strip to failure";
        OVERLAP = "join.J.overlap", "mm", Some(Kind::Length), "planned overlap, on each side of a cut", "your data";
        PARTS_RESERVE = "join.J.C.parts_reserve", "-", None, "least reserve factor of the parts beside the bond, which no overlap changes", "least of the findings on the parts";
        OVERLAP_HELPS_TO = "join.J.C.overlap_helps_to", "mm", Some(Kind::Length), "overlap beyond which the peak shear under the same line load falls by less than 1 % more", "the joint's own linear model at several overlaps";
        CUT_TOLERANCE = "join.J.cut_tolerance", "mm", Some(Kind::Length), "how far the cut of a sleeve may lie off", "your data, or common practice";
        CUT_ERROR_ALLOWED = "join.J.C.cut_error_allowed", "mm", Some(Kind::Length), "by how much a part of a sleeve may end short before the nominal check of the bond falls below 1.00", "EN 1999-1-1, nominal check";
        GALVANIC_PARTS = "join.J.galvanic.parts", "V", Some(Kind::ElectricPotential), "difference of anodic index between the two parts across the bond", "your data";
        GALVANIC_RIVET_OUTER = "join.J.galvanic.rivet_outer", "V", Some(Kind::ElectricPotential), "difference of anodic index between rivet and outer (upper) part", "your data";
        GALVANIC_RIVET_INNER = "join.J.galvanic.rivet_inner", "V", Some(Kind::ElectricPotential), "difference of anodic index between rivet and inner (lower) part", "your data";
        CONVERSION = "bond_day.J.conversion", "-", None, "share of cure at the end of the temperature given", "adhesive's kinetics, Kamal and Sourour 1973";
        STRENGTH_FRACTION = "bond_day.J.strength_fraction", "-", None, "share of the full strength at the end of the temperature given", "adhesive's cure table, equivalent time";
        NOZZLE_TIME = "bond_day.J.nozzle_time", "s", Some(Kind::Time), "how long a mixing nozzle may stand idle at the temperature given", "adhesive's data, equivalent time";
        OPEN_TIME = "bond_day.J.open_time", "s", Some(Kind::Time), "from spreading to closing at the temperature given", "adhesive's data, equivalent time";
        WORKING_TIME = "bond_day.J.working_time", "s", Some(Kind::Time), "from first mix to last closing", "adhesive's data, equivalent time";
        HANDLING_AT = "bond_day.J.handling_at", "s", Some(Kind::Time), "from first mix until the part may be moved", "adhesive's cure table, equivalent time";
        DRIVING_AT = "bond_day.J.driving_at", "s", Some(Kind::Time), "from first mix until the vehicle may be driven", "adhesive's cure table, equivalent time";
        FULL_AT = "bond_day.J.full_at", "s", Some(Kind::Time), "from first mix until full strength", "adhesive's cure table, equivalent time";
        ADHESIVE_VOLUME = "bond_day.adhesive_volume", "mL", Some(Kind::Volume), "adhesive to be had, with all allowances", "definition";
        CARTRIDGES = "bond_day.cartridges", "-", None, "cartridges to be had, with one to spare", "definition";
        COUPON_MEAN = "coupons.S.mean", "MPa", Some(Kind::Stress), "mean strength", "definition";
        COUPON_COV = "coupons.S.cov", "-", None, "coefficient of variation of the strength", "definition, n - 1";
        B_BASIS = "coupons.S.b_basis", "MPa", Some(Kind::Stress), "one-sided 90/95 bound of the chosen distribution, for any number of specimens", "non-central t";
        A_BASIS = "coupons.S.a_basis", "MPa", Some(Kind::Stress), "one-sided 99/95 bound of the chosen distribution, for any number of specimens", "non-central t";
        WEIBULL_SHAPE = "coupons.S.weibull_shape", "-", None, "shape of the Weibull distribution, maximum likelihood", "Weibull 1951";
        WEIBULL_SCALE = "coupons.S.weibull_scale", "MPa", Some(Kind::Stress), "scale of the Weibull distribution, maximum likelihood", "Weibull 1951";
        CHARACTERISTIC = "coupons.S.characteristic", "MPa", Some(Kind::Stress), "characteristic value", "EN 1990:2002, Annex D, scatter unknown";
        LAP_SHEAR_STRENGTH_LOW = "lap_shear.A.shear_strength_low", "MPa", Some(Kind::Stress), "least shear strength of the adhesive that goes with the lap of its data sheet", "strip to failure, turned; ranges of classes by common practice";
        LAP_SHEAR_STRENGTH_HIGH = "lap_shear.A.shear_strength_high", "MPa", Some(Kind::Stress), "greatest shear strength of the adhesive that goes with the lap of its data sheet", "strip to failure, turned; ranges of classes by common practice";
        LAP_TENSILE_STRENGTH_LOW = "lap_shear.A.tensile_strength_low", "MPa", Some(Kind::Stress), "least tensile strength of the adhesive that goes with the lap of its data sheet", "strip to failure, turned; ranges of classes by common practice";
        LAP_TENSILE_STRENGTH_HIGH = "lap_shear.A.tensile_strength_high", "MPa", Some(Kind::Stress), "greatest tensile strength of the adhesive that goes with the lap of its data sheet", "strip to failure, turned; ranges of classes by common practice";
        LAP_MODE_1_TOUGHNESS_LOW = "lap_shear.A.mode_1_toughness_low", "N/mm", Some(Kind::Toughness), "least toughness in opening of the adhesive that goes with the lap of its data sheet", "strip to failure, turned; ranges of classes by common practice";
        LAP_MODE_1_TOUGHNESS_HIGH = "lap_shear.A.mode_1_toughness_high", "N/mm", Some(Kind::Toughness), "greatest toughness in opening of the adhesive that goes with the lap of its data sheet", "strip to failure, turned; ranges of classes by common practice";
        LAP_MODE_2_TOUGHNESS_LOW = "lap_shear.A.mode_2_toughness_low", "N/mm", Some(Kind::Toughness), "least toughness in shear of the adhesive that goes with the lap of its data sheet", "strip to failure, turned; ranges of classes by common practice";
        LAP_MODE_2_TOUGHNESS_HIGH = "lap_shear.A.mode_2_toughness_high", "N/mm", Some(Kind::Toughness), "greatest toughness in shear of the adhesive that goes with the lap of its data sheet", "strip to failure, turned; ranges of classes by common practice";
        RECOVERED_SHEAR_STRENGTH = "recovery.A.shear_strength", "MPa", Some(Kind::Stress), "shear strength of the adhesive, most likely by its coupons", "strip to failure, turned";
        RECOVERED_SHEAR_STRENGTH_LOW = "recovery.A.shear_strength_low", "MPa", Some(Kind::Stress), "lower end of the 95 % region of that", "nonlinear least squares; Seber and Wild 1989, from memory";
        RECOVERED_SHEAR_STRENGTH_HIGH = "recovery.A.shear_strength_high", "MPa", Some(Kind::Stress), "upper end of the 95 % region of that", "nonlinear least squares; Seber and Wild 1989, from memory";
        RECOVERED_MODE_1_TOUGHNESS = "recovery.A.mode_1_toughness", "N/mm", Some(Kind::Toughness), "toughness in opening of the adhesive, most likely by its coupons", "strip to failure, turned";
        RECOVERED_MODE_1_TOUGHNESS_LOW = "recovery.A.mode_1_toughness_low", "N/mm", Some(Kind::Toughness), "lower end of the 95 % region of that", "nonlinear least squares; Seber and Wild 1989, from memory";
        RECOVERED_MODE_1_TOUGHNESS_HIGH = "recovery.A.mode_1_toughness_high", "N/mm", Some(Kind::Toughness), "upper end of the 95 % region of that", "nonlinear least squares; Seber and Wild 1989, from memory";
        RECOVERED_MODE_2_TOUGHNESS = "recovery.A.mode_2_toughness", "N/mm", Some(Kind::Toughness), "toughness in shear of the adhesive, most likely by its coupons", "strip to failure, turned";
        RECOVERED_MODE_2_TOUGHNESS_LOW = "recovery.A.mode_2_toughness_low", "N/mm", Some(Kind::Toughness), "lower end of the 95 % region of that", "nonlinear least squares; Seber and Wild 1989, from memory";
        RECOVERED_MODE_2_TOUGHNESS_HIGH = "recovery.A.mode_2_toughness_high", "N/mm", Some(Kind::Toughness), "upper end of the 95 % region of that", "nonlinear least squares; Seber and Wild 1989, from memory";
        RECOVERED_SCATTER = "recovery.A.scatter", "-", None, "scatter of the coupons about the strip with the properties found", "nonlinear least squares, n - k";
    }
    /// Names of series.
    SERIES {
        SHEAR = "join.J.C.shear", "MPa", Some(Kind::Stress), "shear along the overlap", "linear strip";
        PEEL = "join.J.C.peel", "MPa", Some(Kind::Stress), "peel along the overlap", "linear strip";
        LOAD_PATH = "join.J.C.load_path", "-", None, "multiple of the case's load over the displacement of the ends, strengths as written", "strip to failure";
        DAMAGE = "join.J.C.damage", "-", None, "share of the bond's stiffness that is gone at the greatest load, along the overlap", "strip to failure";
        PERIMETER_AXIAL = "join.J.C.perimeter_axial", "N/mm", Some(Kind::LineLoad), "line load along the member around the perimeter, tension positive", "bonded perimeter, sections rigid";
        PERIMETER_FLOW = "join.J.C.perimeter_flow", "N/mm", Some(Kind::LineLoad), "shear flow around the perimeter, positive the way the perimeter runs", "bonded perimeter, sections rigid";
        PERIMETER_SHEAR_FREE = "join.J.C.perimeter_shear_free", "MPa", Some(Kind::Stress), "greatest shear along the overlap, around the perimeter, walls free to bend", "linear strips around the perimeter";
        PERIMETER_SHEAR_HELD = "join.J.C.perimeter_shear_held", "MPa", Some(Kind::Stress), "greatest shear along the overlap, around the perimeter, walls held flat", "linear strips around the perimeter";
        PERIMETER_PEEL_FREE = "join.J.C.perimeter_peel_free", "MPa", Some(Kind::Stress), "greatest peel along the overlap, around the perimeter, walls free to bend", "linear strips around the perimeter";
        PERIMETER_PEEL_HELD = "join.J.C.perimeter_peel_held", "MPa", Some(Kind::Stress), "greatest peel along the overlap, around the perimeter, walls held flat", "linear strips around the perimeter";
        RESERVE_BY_OVERLAP = "join.J.C.reserve_by_overlap", "-", None, "reserve factor of the bond at other overlaps, 23 °C, dry", "EN 1999-1-1, nominal check";
        RESERVE_BY_OVERLAP_HOT = "join.J.C.reserve_by_overlap_hot", "-", None, "reserve factor of the bond at other overlaps, hottest service", "EN 1999-1-1, nominal check";
        RESERVE_BY_OVERLAP_COLD = "join.J.C.reserve_by_overlap_cold", "-", None, "reserve factor of the bond at other overlaps, coldest service", "EN 1999-1-1, nominal check";
        RESERVE_BY_CUT_ERROR = "join.J.C.reserve_by_cut_error", "-", None, "reserve factor of the bond with a part that ends short of the cut, 23 °C, dry: overlap lost and gap gained", "EN 1999-1-1, nominal check";
        PEAK_SHEAR_BY_OVERLAP = "join.J.C.peak_shear_by_overlap", "MPa", Some(Kind::Stress), "greatest shear at other overlaps under the line load of the planned one; walls of a section held flat", "the joint's own linear model at several overlaps";
        DIAGRAM_AXIAL = "member.M.C.axial", "N", Some(Kind::Force), "axial force along the member", "statics";
        DIAGRAM_SHEAR_Y = "member.M.C.shear_y", "N", Some(Kind::Force), "shear force along local y, along the member", "statics";
        DIAGRAM_SHEAR_Z = "member.M.C.shear_z", "N", Some(Kind::Force), "shear force along local z, along the member", "statics";
        DIAGRAM_MOMENT_Y = "member.M.C.moment_y", "N·mm", Some(Kind::Moment), "moment about local y, along the member", "statics";
        DIAGRAM_MOMENT_Z = "member.M.C.moment_z", "N·mm", Some(Kind::Moment), "moment about local z, along the member", "statics";
        DIAGRAM_TORQUE = "member.M.C.torque", "N·mm", Some(Kind::Moment), "torque, along the member", "statics";
        STRENGTH_CURVE = "bond_day.J.strength", "-", None, "share of the full strength over time", "adhesive's cure table, equivalent time";
        TEMPERATURE_CURVE = "bond_day.temperature", "°C", Some(Kind::Temperature), "temperature of the parts over time", "your data";
        COUPON_STRENGTHS = "coupons.S.strengths", "MPa", Some(Kind::Stress), "strength of each specimen, in the order of the file", "your data";
    }
    /// Names of fields.
    FIELDS {
        SHEAR_FIELD = "join.J.C.shear_field", "MPa", Some(Kind::Stress), "shear over the faying surfaces, walls held flat", "linear strips around the perimeter";
        PEEL_FIELD = "join.J.C.peel_field", "MPa", Some(Kind::Stress), "peel over the faying surfaces, walls free to bend", "linear strips around the perimeter";
        LINE_LOAD_FIELD = "join.J.C.line_load_field", "N/mm", Some(Kind::LineLoad), "line load around the perimeter", "bonded perimeter, sections rigid";
    }
}
