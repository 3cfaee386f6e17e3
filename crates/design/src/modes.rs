//! The modes of a build as the linker makes them: which sort each is, and what the build says of it.

use crate::known::{Gaps, PartId};
use std::sync::Arc;

/// What sort of mode one is.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Sort {
    /// At rest and on its own stores, in the dark: the mode that stands for the build where modes make no difference.
    Parked,
    /// The engine runs, or a towing vehicle feeds.
    Driving,
    /// The mains of a site feed.
    Shore,
    /// This generator feeds; any of them where none is named.
    Generator(Option<PartId>),
    /// The sun feeds.
    Solar,
    /// This disconnect is open, whatever else feeds.
    Opened(PartId),
    /// The management of these batteries has cut them off, whatever else feeds.
    Tripped(Vec<PartId>),
    /// Laid up: the disconnects are open, and nobody looks after it.
    Storage,
}

/// One mode.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Mode {
    /// Its name.
    pub name: Arc<str>,
    /// The worked part that stands for it.
    pub part: PartId,
    /// The part by which a builder wrote it.
    pub written: Option<PartId>,
    /// Its sort.
    pub sort: Sort,
    /// What is said to feed.
    pub feeding: Vec<PartId>,
    /// What is said not to feed.
    pub not_feeding: Vec<PartId>,
    /// The switches that are said to be open.
    pub open: Vec<PartId>,
    /// The switches that are said to be closed.
    pub closed: Vec<PartId>,
    /// What is written of it and cannot be told.
    pub gaps: Gaps,
}
