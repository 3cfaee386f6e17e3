//! Sourced outlines that an emergency exit must let pass. They differ by vehicle and region on purpose; which holds is for the rules.

use super::{Outline, SpaceError, Turning};
use crate::{Citation, Mark};

/// An outline that has to pass through an exit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ExitGauge {
    /// Width, m.
    pub width: f64,
    /// Height, m.
    pub height: f64,
    /// True for an ellipse, false for a rectangle.
    pub ellipse: bool,
    /// How it may be turned.
    pub turning: Turning,
    /// Where it comes from.
    pub citation: &'static Citation,
}

impl ExitGauge {
    /// Its outline.
    ///
    /// # Errors
    /// As [`Outline::rectangle`]; never for the gauges given here.
    pub fn outline(&self) -> Result<Outline, SpaceError> {
        if self.ellipse {
            Outline::ellipse(self.width, self.height)
        } else {
            Outline::rectangle(self.width, self.height)
        }
    }
}

/// Bus: an ellipsoid made by turning an ellipse of 20 × 13 in (508 × 330 mm) about its minor axis, a major axis level.
pub static BUS_EXIT: ExitGauge = ExitGauge {
    width: 0.508,
    height: 0.330,
    ellipse: true,
    turning: Turning::Level,
    citation: &Citation {
        document: "49 CFR 571.217",
        place: "S5.4.1",
        edition: "quoted in interpretation letters",
        mark: Mark::Read,
        address: "https://nhtsa.gov/interpretations/aiam2554",
    },
};

/// Motor caravan in Belgium: 400 × 600 mm.
pub static BELGIAN_EXIT: ExitGauge = ExitGauge {
    width: 0.600,
    height: 0.400,
    ellipse: false,
    turning: Turning::Any,
    citation: &Citation {
        document: "Belgian technical regulation for vehicles",
        place: "Art. 59 §3",
        edition: "2021 copy of the law's words",
        mark: Mark::SecondHand,
        address: "https://antwerp-motorhome.blogspot.com/2021/03/deuren.html",
    },
};

/// Bus in Germany: an emergency window of 0.4 m² that lets a rectangle of 500 mm height and 700 mm width pass.
pub static GERMAN_BUS_EXIT: ExitGauge = ExitGauge {
    width: 0.700,
    height: 0.500,
    ellipse: false,
    turning: Turning::Level,
    citation: &Citation {
        document: "StVZO Annex X",
        place: "5.3.1",
        edition: "as stored; older than the present UN R107",
        mark: Mark::Read,
        address: "",
    },
};

/// Leisure vehicle in the United States: 24 × 17 in (610 × 432 mm). The size was seen second-hand; that it is an ellipse is from memory.
pub static LEISURE_VEHICLE_EXIT: ExitGauge = ExitGauge {
    width: 0.610,
    height: 0.432,
    ellipse: true,
    turning: Turning::Any,
    citation: &Citation {
        document: "NFPA 1192",
        place: "alternate exit, least opening",
        edition: "edition not seen",
        mark: Mark::Memory,
        address: "",
    },
};

/// Sleeper berth of a commercial vehicle in the United States: 18 in high × 36 in wide (457 × 914 mm) into the driver's compartment.
pub static SLEEPER_EXIT: ExitGauge = ExitGauge {
    width: 0.914,
    height: 0.457,
    ellipse: false,
    turning: Turning::Level,
    citation: &Citation {
        document: "49 CFR 393.76",
        place: "(c)(1)",
        edition: "copy of the text",
        mark: Mark::SecondHand,
        address: "",
    },
};
