//! Design thermal conductivity λ, density, specific heat and vapour resistance of materials.
//!
//! * Insulation: nominal values by the product standards EN 13162 to 13171, a magazine's table (issuu, insulation, page 7). Mark: read.
//! * Polyethylene foam: 0.033 nominal by the same table, upper bound 1.2 times that, the German factor from declared to design value
//!   for goods that carry the CE mark only (DIN V 4108-4). Mark: read.
//! * Metals, glass, plastics, timber: userdeck.net 05.06, values of prEN ISO 10077-2 and prEN 12524 (now ISO 10456). Mark: read.
//! * Polyisocyanurate: 0.022 to 0.025 aged, ASHRAE 2017 chapter 26 Table 1 in a poor scan, with the older 0.030 of CIBSE Guide A
//!   Table 3.37 as the upper bound. Mark: read.
//! * Rubber, linoleum, carpet, PVC foam: CIBSE Guide A Tables 3.36 and 3.37 (scribd 852732613). Mark: read.
//! * Plywood: ISO 10456 Table 3, from memory; so are all vapour resistance factors µ and those densities and specific heats that the
//!   insulation table does not give.
//! * Elastomeric foam 0.033 to 0.036 at 0 °C, spray polyurethane 0.024 to 0.028: from memory.

use crate::citation::{Citation, Mark};
use crate::heat::Material;
use crate::interval::Interval;

static INSULATION: Citation = Citation {
    document: "EN 13162 to EN 13171",
    place: "range of nominal thermal conductivity by product, magazine table page 7",
    edition: "undated",
    mark: Mark::Read,
    address: "",
};

static SOLIDS: Citation = Citation {
    document: "prEN ISO 10077-2 and prEN 12524 (now ISO 10456)",
    place: "table of material properties",
    edition: "2000 and 1998, quoted on one page",
    mark: Mark::Read,
    address: "https://userdeck.net",
};

static FINISHES: Citation = Citation {
    document: "CIBSE Guide A",
    place: "Tables 3.36 and 3.37",
    edition: "undated copy",
    mark: Mark::Read,
    address: "https://www.scribd.com/document/852732613",
};

static POLYISOCYANURATE: Citation = Citation {
    document: "ASHRAE Fundamentals chapter 26 and CIBSE Guide A",
    place: "Table 1 (aged board, poor scan) and Table 3.37 (upper bound)",
    edition: "2017; undated copy",
    mark: Mark::Read,
    address: "https://www.scribd.com/document/500764851",
};

static PLYWOOD: Citation =
    Citation { document: "ISO 10456", place: "Table 3, plywood", edition: "not seen", mark: Mark::Memory, address: "" };

static MEMORY: Citation = Citation {
    document: "no source seen",
    place: "usual range of the product",
    edition: "",
    mark: Mark::Memory,
    address: "",
};

const fn range(least: f64, most: f64) -> Interval {
    Interval::row(least, most)
}

const fn one(value: f64) -> Interval {
    Interval::row(value, value)
}

/// A material that keeps its conductivity when it is pressed, and is not weakened by cold.
const fn plain(
    name: &'static str,
    conductivity: Interval,
    density: Option<Interval>,
    specific_heat: Option<f64>,
    vapour_resistance: Option<Interval>,
    citation: &'static Citation,
) -> Material {
    Material { name, conductivity, density, specific_heat, vapour_resistance, fibrous: false, citation }
}

const fn fibre(
    name: &'static str,
    conductivity: Interval,
    density: Option<Interval>,
    specific_heat: Option<f64>,
    vapour_resistance: Option<Interval>,
) -> Material {
    let citation = &INSULATION;
    Material { name, conductivity, density, specific_heat, vapour_resistance, fibrous: true, citation }
}

/// Metals and glass let no vapour through; ISO 10456 prints no limit, which a calculation cannot use.
const TIGHT: Option<Interval> = Some(one(1e6));

pub(crate) static MATERIALS: &[Material] = &[
    plain("steel", range(45.0, 50.0), Some(one(7_800.0)), Some(450.0), TIGHT, &SOLIDS),
    plain("stainless-steel", one(17.0), Some(one(7_900.0)), Some(460.0), TIGHT, &SOLIDS),
    plain("aluminium-alloy", one(160.0), Some(one(2_800.0)), Some(880.0), TIGHT, &SOLIDS),
    plain("glass", range(1.0, 1.05), Some(one(2_500.0)), Some(750.0), TIGHT, &SOLIDS),
    plain("acrylic", range(0.18, 0.20), Some(range(1_050.0, 1_180.0)), Some(1_500.0), Some(range(1e4, 5e4)), &SOLIDS),
    plain("polycarbonate", one(0.20), Some(one(1_200.0)), Some(1_200.0), Some(one(5_000.0)), &SOLIDS),
    plain("glass-fibre-polyester", one(0.40), Some(one(1_900.0)), None, None, &SOLIDS),
    plain("polyamide", one(0.25), Some(one(1_150.0)), Some(1_600.0), Some(one(5e4)), &SOLIDS),
    plain("pvc", range(0.16, 0.17), Some(one(1_390.0)), Some(900.0), Some(one(5e4)), &SOLIDS),
    plain("softwood", range(0.13, 0.17), Some(range(500.0, 700.0)), Some(1_600.0), Some(range(50.0, 200.0)), &SOLIDS),
    plain("hardwood", one(0.18), Some(one(700.0)), Some(1_600.0), Some(range(50.0, 200.0)), &SOLIDS),
    plain("plywood", range(0.13, 0.17), Some(range(500.0, 700.0)), Some(1_600.0), Some(range(70.0, 220.0)), &PLYWOOD),
    plain("hard-rubber", one(0.15), Some(one(1_200.0)), Some(1_000.0), None, &FINISHES),
    plain("linoleum", one(0.19), None, None, None, &FINISHES),
    plain("carpet", range(0.06, 0.10), None, None, None, &FINISHES),
    plain("polyisocyanurate", range(0.022, 0.030), Some(range(26.0, 45.0)), Some(1_470.0), None, &POLYISOCYANURATE),
    plain(
        "extruded-polystyrene",
        range(0.030, 0.040),
        Some(range(22.0, 58.0)),
        Some(1_470.0),
        Some(one(150.0)),
        &INSULATION,
    ),
    plain(
        "expanded-polystyrene",
        range(0.035, 0.040),
        Some(range(16.0, 29.0)),
        Some(1_500.0),
        Some(one(60.0)),
        &INSULATION,
    ),
    plain(
        "polyurethane-board",
        range(0.024, 0.030),
        Some(range(30.0, 40.0)),
        Some(1_470.0),
        Some(range(50.0, 100.0)),
        &INSULATION,
    ),
    plain(
        "polyurethane-spray",
        range(0.024, 0.028),
        Some(range(30.0, 40.0)),
        Some(1_470.0),
        Some(range(50.0, 100.0)),
        &MEMORY,
    ),
    plain("phenolic-foam", range(0.022, 0.040), None, None, None, &INSULATION),
    plain("pvc-foam", one(0.035), None, None, None, &FINISHES),
    plain("melamine-foam", one(0.035), None, None, None, &INSULATION),
    plain(
        "polyethylene-foam",
        range(0.033, 0.0396),
        Some(range(25.0, 35.0)),
        Some(2_300.0),
        Some(one(2_000.0)),
        &INSULATION,
    ),
    plain(
        "elastomeric-foam",
        range(0.033, 0.036),
        Some(range(40.0, 80.0)),
        Some(2_000.0),
        Some(range(7e3, 1e4)),
        &MEMORY,
    ),
    plain("foam-glass", range(0.040, 0.060), None, None, None, &INSULATION),
    plain("expanded-cork", range(0.045, 0.060), None, None, None, &INSULATION),
    plain("vacuum-panel", range(0.002, 0.008), None, None, None, &INSULATION),
    plain("aerogel", range(0.017, 0.021), None, None, None, &INSULATION),
    fibre("mineral-wool", range(0.035, 0.045), Some(range(20.0, 140.0)), Some(800.0), Some(one(1.0))),
    fibre("sheep-wool", range(0.040, 0.045), Some(range(18.0, 25.0)), Some(1_700.0), Some(range(1.0, 2.0))),
    fibre("wood-fibre", range(0.040, 0.090), None, None, None),
    fibre("cellulose", range(0.040, 0.045), None, None, None),
    fibre("cotton", one(0.040), None, None, None),
    fibre("flax", range(0.037, 0.045), None, None, None),
    fibre("hemp", range(0.040, 0.050), None, None, None),
    fibre("coconut-fibre", range(0.040, 0.050), None, None, None),
    fibre("polyester-fibre", range(0.035, 0.045), None, None, None),
];
