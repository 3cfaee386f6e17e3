//! The expression language of rules: what it refuses and where, and what it answers.

mod explanations;
mod faults;
mod proofs;
mod robust;
mod table;
mod templates;
mod values;
