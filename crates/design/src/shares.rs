//! What makes up a sum, part by part, for whoever writes a budget: the facts themselves hold only the sums.

use crate::fact::Outcome;
use crate::known::PartId;

/// What one part takes from the fitted batteries in a day.
#[derive(Clone, PartialEq, Debug)]
pub struct EnergyShare {
    /// The load, or the inverter.
    pub part: PartId,
    /// Whether an inverter takes it for being switched on.
    pub idle: bool,
    /// The power while it runs, W, where it is known.
    pub watts: Option<f64>,
    /// For how long it runs in a day, s, where it is known.
    pub seconds: Option<f64>,
    /// The energy, J, the losses on the way included.
    pub taken: Outcome<f64>,
}

/// What one thing, or what fills it, weighs in a fill and where that rests.
#[derive(Clone, PartialEq, Debug)]
pub struct MassShare {
    /// The part that it is, or that holds it.
    pub part: PartId,
    /// What it is called.
    pub title: std::sync::Arc<str>,
    /// Whether it is the base vehicle itself, on one of its supports.
    pub base: bool,
    /// Its mass, kg, or what would settle it.
    pub mass: Outcome<f64>,
    /// What of it each support carries, kg, from front to rear; nothing where its place is not known.
    pub carried: Option<Vec<f64>>,
}
