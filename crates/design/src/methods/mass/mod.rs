//! What everything weighs and where it rests, by `calc::mass`. The burdens are gathered once, their loads once for each fill.

pub mod axle;
mod burden;
mod fills;
mod layout;
mod loads;
mod payload;
mod people;
mod shares;
mod tables;
pub mod vehicle;

pub use burden::{ANY, Burdens, own_mass};
pub use fills::{AS_BUILT, FILLS};
pub use loads::Loads;

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    [axle::bindings(), vehicle::bindings(), payload::bindings()].concat()
}
