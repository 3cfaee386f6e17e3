//! What makes up the load of each axle, thing by thing, for whoever writes a mass sheet.

use super::burden::Sort;
use super::fills::FILLS;
use crate::known::{CaseId, PartId};
use crate::reader::Reader;
use crate::shares::MassShare;

impl Reader<'_> {
    /// The axles, and the coupling of a trailer, from front to rear.
    pub fn supports(&mut self) -> Vec<PartId> {
        self.burdens().supports.clone()
    }

    /// What each state of filling is called, in the order of the cases of fills.
    pub fn fill_names() -> [&'static str; FILLS.len()] {
        FILLS.map(|fill| fill.name)
    }

    /// Whatever is aboard in the fill of a case, with what of it each support carries.
    pub fn mass_shares(&mut self, case: CaseId) -> Vec<MassShare> {
        let burdens = self.burdens();
        let fill = self.cases().fill(case);
        let loads = self.loads(fill);
        let mut shares = Vec::new();
        for aboard in &loads.aboard {
            let Some(burden) = burdens.all.get(aboard.burden) else { continue };
            let mass = burden.mass.as_ref().map(|mass| mass.value()).map_err(Clone::clone);
            let carried = match (&mass, &aboard.parts) {
                (Ok(mass), Some(parts)) => Some(parts.iter().map(|part| part * mass).collect()),
                _ => None,
            };
            let base = burden.sort == Sort::Base;
            shares.push(MassShare { part: burden.part, title: burden.title.clone(), base, mass, carried });
        }
        shares
    }
}
