//! What is lost between the light on the modules and the battery's terminals.

use crate::citation::{Citation, Mark};

/// A cause of loss.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Loss {
    /// Dirt on the glass.
    Soiling,
    /// Shade of roof vents, boxes and trees.
    Shading,
    /// Snow that lies on the glass.
    Snow,
    /// Modules that differ from each other.
    Mismatch,
    /// Resistance of the wires.
    Wiring,
    /// Resistance of plugs and terminals.
    Connections,
    /// The first hours of light on new cells.
    FirstLight,
    /// Modules below the power on their plate.
    Nameplate,
    /// Wear with the years.
    Age,
    /// Time out of order.
    Availability,
    /// The charge controller's own loss.
    Controller,
}

/// How many causes there are.
pub const LOSS_COUNT: usize = 11;

impl Loss {
    /// Every cause, in the order of [`Losses`].
    pub const ALL: [Loss; LOSS_COUNT] = [
        Loss::Soiling,
        Loss::Shading,
        Loss::Snow,
        Loss::Mismatch,
        Loss::Wiring,
        Loss::Connections,
        Loss::FirstLight,
        Loss::Nameplate,
        Loss::Age,
        Loss::Availability,
        Loss::Controller,
    ];

    /// What is lost to it where nothing is known, 0 to 1, and where that comes from. Always an assumption, to be shown as one.
    #[must_use]
    pub fn typical(self) -> (f64, &'static Citation) {
        static DEFAULTS: Citation = Citation {
            document: "A. P. Dobos, PVWatts Version 5 Manual, NREL/TP-6A20-62641",
            place: "default losses of fixed arrays: soiling 2, shading 3, mismatch 2, wiring 2, connections 0.5, first light 1.5, nameplate 1, availability 3 %",
            edition: "2014",
            mark: Mark::SecondHand,
            address: "https://doi.org/10.2172/1158421",
        };
        static CONTROLLER: Citation = Citation {
            document: "assumption of this project",
            place: "a controller that seeks the point of most power loses 3 %",
            edition: "",
            mark: Mark::Chosen,
            address: "",
        };
        match self {
            Loss::Soiling | Loss::Mismatch | Loss::Wiring => (0.02, &DEFAULTS),
            Loss::Shading | Loss::Availability => (0.03, &DEFAULTS),
            Loss::Snow | Loss::Age => (0.0, &DEFAULTS),
            Loss::Connections => (0.005, &DEFAULTS),
            Loss::FirstLight => (0.015, &DEFAULTS),
            Loss::Nameplate => (0.01, &DEFAULTS),
            Loss::Controller => (0.03, &CONTROLLER),
        }
    }
}

/// The losses of an array, each known or not, by the order of [`Loss::ALL`].
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Losses([Option<f64>; LOSS_COUNT]);

impl Losses {
    /// Nothing known.
    pub const UNKNOWN: Losses = Losses([None; LOSS_COUNT]);

    /// All of them typical ([`Loss::typical`]).
    #[must_use]
    pub fn typical() -> Self {
        Losses(Loss::ALL.map(|loss| Some(loss.typical().0)))
    }

    /// The same with one of them known, 0 to 1.
    #[must_use]
    pub fn with(mut self, loss: Loss, share: f64) -> Self {
        for (entry, cause) in self.0.iter_mut().zip(Loss::ALL) {
            if cause == loss {
                *entry = Some(share);
            }
        }
        self
    }

    /// What is left after all of them, 0 to 1: the product of what each leaves.
    ///
    /// # Errors
    ///
    /// The first loss that is not known or is not a share from 0 to 1.
    pub fn left(&self) -> Result<f64, Loss> {
        let mut left = 1.0;
        for (entry, loss) in self.0.iter().zip(Loss::ALL) {
            match entry {
                Some(share) if (0.0..=1.0).contains(share) => left *= 1.0 - share,
                _ => return Err(loss),
            }
        }
        Ok(left)
    }

    /// The losses that are not known.
    pub fn unknown(&self) -> impl Iterator<Item = Loss> {
        self.0.iter().zip(Loss::ALL).filter(|(entry, _)| entry.is_none()).map(|(_, loss)| loss)
    }
}
