//! From text to typed parts with spans: what a builder wrote, where, and what of it could not be understood.
//!
//! Nothing here stops at an error. What is wrong in the text becomes a [`Slip`] with the narrowest span; everything
//! else is read all the same. This crate knows the vocabulary and nothing of engineering or rules.

mod include;
mod like;
mod loader;
mod lower;
mod part;
mod slip;
pub mod text;
mod value;

pub use include::read;
pub use loader::{LoadFault, Loaded, Loader, SingleText};
pub use part::{File, Given, Incomplete, Name, Part, RuleFile, Span, Spec, Via};
pub use slip::{Mend, Slip};
pub use value::{UNKNOWN, Value, implied_value};
