//! How the tightness of a gas system is tested, for the test sheet.
//!
//! * EN 1949, clause 4.3 (2011+A1:2013; a later edition of 2021 exists): air at 150 mbar, 5 min of rest, then at most 10 mbar lost in 5 min,
//!   in a system of at least 700 cm³. Mark: second-hand.
//! * WAC 296-150V-1450: piping alone, at least 10 psi for at least 15 min, no drop. Mark: read.
//! * 24 CFR 3280.705(l)(8): piping at 3 psi (± 0.2) for 10 min without drop, then the appliances at 10 to 14 in. w.c. with leak fluid. Mark: read.

use crate::citation::{Citation, Mark};
use crate::number::{finite, not_negative, positive};

/// One test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TightnessTest {
    /// The region whose text asks for it: the word of the build's basis.
    pub region: &'static str,
    /// Pressure of the air, Pa.
    pub pressure: f64,
    /// Rest before the reading, s.
    pub rest: f64,
    /// Duration of the reading, s.
    pub duration: f64,
    /// Pressure that may be lost, Pa.
    pub largest_loss: f64,
    /// Source.
    pub citation: Citation,
}

const MINUTE: f64 = 60.0;
const MILLIBAR: f64 = 100.0;
const POUND_PER_SQUARE_INCH: f64 = 6_894.757;

static TESTS: [TightnessTest; 4] = [
    TightnessTest {
        region: "eu",
        pressure: 150.0 * MILLIBAR,
        rest: 5.0 * MINUTE,
        duration: 5.0 * MINUTE,
        largest_loss: 10.0 * MILLIBAR,
        citation: EN_1949,
    },
    TightnessTest {
        region: "uk",
        pressure: 150.0 * MILLIBAR,
        rest: 5.0 * MINUTE,
        duration: 5.0 * MINUTE,
        largest_loss: 10.0 * MILLIBAR,
        citation: EN_1949,
    },
    TightnessTest {
        region: "us",
        pressure: 3.0 * POUND_PER_SQUARE_INCH,
        rest: 0.0,
        duration: 10.0 * MINUTE,
        largest_loss: 0.0,
        citation: Citation {
            document: "24 CFR 3280.705",
            place: "(l)(8), piping before the appliances are joined",
            edition: "eCFR text of about April 2023",
            mark: Mark::Read,
            address: "",
        },
    },
    TightnessTest {
        region: "us",
        pressure: 10.0 * POUND_PER_SQUARE_INCH,
        rest: 0.0,
        duration: 15.0 * MINUTE,
        largest_loss: 0.0,
        citation: Citation {
            document: "WAC 296-150V-1450",
            place: "piping before the appliances are joined (vendor and medical units, Washington)",
            edition: "undated copy",
            mark: Mark::Read,
            address: "https://app.leg.wa.gov/WAC/default.aspx?cite=296-150V-1450",
        },
    },
];

const EN_1949: Citation = Citation {
    document: "EN 1949",
    place: "clause 4.3",
    edition: "2011+A1:2013, as paraphrased; an edition of 2021 exists",
    mark: Mark::SecondHand,
    address: "https://123doc.top/document/13748385-bsi-bs-en-01949-2011-a1-2013.htm",
};

/// The tests that texts of a region ask for; none is known for Australia and New Zealand.
pub fn tightness_tests(region: &str) -> impl Iterator<Item = &'static TightnessTest> {
    TESTS.iter().filter(move |test| test.region == region)
}

/// Air that leaks from a system of this volume, m³/s at one atmosphere: V·Δp/p₀ over the time. `volume` m³, `loss` Pa, `seconds` s.
#[must_use]
pub fn leak_rate(volume: f64, loss: f64, seconds: f64) -> Option<f64> {
    const ATMOSPHERE_PASCALS: f64 = 101_325.0;
    if positive(volume) && not_negative(loss) && positive(seconds) {
        finite(volume * loss / ATMOSPHERE_PASCALS / seconds)
    } else {
        None
    }
}
