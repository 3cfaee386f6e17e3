//! What makes up a sum, part by part, for whoever writes a budget: the facts themselves hold only the sums.

use crate::fact::Outcome;
use crate::known::{CaseId, PartId};
use crate::methods;
use crate::reader::Reader;

/// What one part takes from the fitted batteries in a day.
#[derive(Clone, PartialEq, Debug)]
pub struct EnergyShare {
    /// The load, or the inverter.
    pub part: PartId,
    /// Whether an inverter takes it for being switched on.
    pub idle: bool,
    /// The energy, J, the losses on the way included.
    pub taken: Outcome<f64>,
}

impl Reader<'_> {
    /// What makes up the build's `energy-a-day`: its sum is that fact, where all shares are known and the text could be read.
    pub fn energy_shares(&mut self, case: CaseId) -> Vec<EnergyShare> {
        methods::energy::shares(self, case)
            .into_iter()
            .map(|(part, idle, taken)| EnergyShare { part, idle, taken })
            .collect()
    }
}
