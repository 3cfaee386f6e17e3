//! Rule packs: read, type-checked, compiled and judged; and proved by their examples.
//!
//! Rules are data. This crate knows the language they are written in and how to judge a linked build by them; it knows
//! nothing of engineering, which the facts of `design` bring, nor of terminals and editors.

pub mod expression;
pub mod facts;
pub mod finding;
pub mod judge;
pub mod pack;
pub mod prove;
pub mod review;
pub mod rule;
pub mod signal;

pub use finding::{Finding, Review};
pub use review::{ReviewOptions, Today, review};
pub use rule::Rule;
pub use signal::{Mark, Region, Signal};
