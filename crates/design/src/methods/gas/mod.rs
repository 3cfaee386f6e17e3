//! Gas: lines from the cylinder to the flame, what stands on them, and the places of cylinders and loose gas.

pub mod appliances;
pub mod line;
pub mod locker;
pub mod loose;
pub mod pieces;
pub mod supply;
pub mod ways;

use crate::binding::Bindings;

/// The methods of this subject.
pub fn bindings() -> Bindings {
    [
        line::bindings(),
        pieces::bindings(),
        supply::bindings(),
        locker::bindings(),
        loose::bindings(),
        appliances::bindings(),
        ways::bindings(),
    ]
    .concat()
}
