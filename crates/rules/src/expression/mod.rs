//! The expression language of rules: the syntax of the Common Expression Language with semantics of our own.
//!
//! - **Numbers** are reals with a dimension; a unit is a factor (`178 * mm`), a point on a thermometer a call (`degC(0)`).
//!   `<=` and `>=` hold within 1e-9 of the larger side, `<` and `>` are their opposites; `==` is for counts only.
//! - **Names** are facts of the part that the rule is about (`-` written `_`), the rule's named values, and units; `self` is
//!   that part. A word of a choice is a bare name beside that choice: `passes == metal`, `smoke in senses`.
//! - **Lists** of parts: `all`, `exists`, `exists_one`, `filter`, `size` (or `count`), and `map(x, number)` followed by `sum`,
//!   `min` or `max`. `is(part, kind)` asks for a part's kind; behind a filter by it the facts of that kind can be read.
//! - **Unknown** is a value (Kleene). A list that may be incomplete makes `all` unable to hold and `exists` unable to fail.
//!   A division by zero, an overflow, and the least of an empty list are unknown.
//!
//! Everything is checked by [`compile`] before any build is read; [`Expression::test`] then neither fails nor allocates.

mod arithmetic;
mod check;
mod decide;
mod evaluate;
mod functions;
mod gaps;
mod lists;
mod names;
mod node;
mod parse;
mod prove;
mod record;
mod syntax;
mod template;
mod token;
mod value_type;
mod words;

pub use decide::Margin;
pub use names::name_taken;
pub use node::{Condition, Expression, ValueUse};
pub use prove::{LeafTrace, Mutant, Trace};
pub use template::{Shown, Template, UNKNOWN, compile_template};
pub use value_type::{Kinds, ValueType};

use quantity::Dimension;
use std::ops::Range;
use vocabulary::PartKind;

/// What the names of an expression can mean.
#[derive(Clone, Copy, Debug)]
pub struct Scope<'a> {
    /// The kind of the part that the rule is about.
    pub about: PartKind,
    /// The named values of the rule. [`name_taken`] says which names they may not have.
    pub values: &'a [(&'a str, Dimension)],
}

/// Something wrong in an expression or a template.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Fault {
    /// Where, in bytes of the text.
    pub at: Range<usize>,
    /// What is wrong.
    pub message: String,
    /// What to write instead.
    pub help: Option<String>,
}

/// Compiles a flag expression: a rule's `when` or `must`. Every fault that can be told is told, in text order.
pub fn compile(text: &str, scope: &Scope) -> Result<Expression, Vec<Fault>> {
    check::check(text, &parse::parse(text)?, scope)
}
