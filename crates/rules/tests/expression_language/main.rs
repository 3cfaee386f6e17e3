//! The expression language of rules: what it refuses and where, and what it answers.

// The helpers of these tests stand outside test functions, where clippy.toml does not reach.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod explanations;
mod faults;
mod proofs;
mod robust;
mod table;
mod templates;
mod values;
