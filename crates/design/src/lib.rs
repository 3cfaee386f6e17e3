//! Names resolved to a graph, and every fact of the vocabulary bound to a method that calls `calc`.
//!
//! [`link`] makes a [`Build`] of what the reader brought; a [`Reader`] answers for any part, fact and case, and can say how
//! it came to a value. Nothing here knows of rules or editors, nor does any input or output.

mod binding;
mod cases;
mod circuitry;
mod circumstances;
mod fact;
mod known;
mod link;
mod methods;
mod modes;
mod part;
mod reader;
mod regions;
mod scene;
mod shares;
mod working;

pub use binding::unbound_facts;
pub use cases::Cases;
pub use circuitry::{Circuitry, End, Piece, Run, Side, Terminal};
pub use fact::Fact;
pub use known::{AnyOf, CaseId, Gap, Gaps, PartId, Parts, Tri};
pub use link::link;
pub use methods::{Fed, ModeOverview, WeekCurve};
pub use modes::{Mode, Sort};
pub use part::{Build, Part};
pub use reader::Reader;
pub use regions::Regions;
pub use scene::{Hole, Interior, Scene, Stand};
pub use shares::{EnergyShare, MassShare};
pub use working::{Step, Working};
