//! The type check: from [`Syntax`] to an [`Expression`], or every fault that can be told.

use super::node::{Condition, Expression, FactRef, Ix, Literal, Node, Program, SignPlace, ValueUse};
use super::syntax::{Sign, Syntax, SyntaxKind};
use super::template::powers;
use super::value_type::{Kinds, ValueType};
use super::{Fault, Scope};
use quantity::Dimension;
use std::collections::HashMap;
use std::ops::Range;

/// Checks an expression that must be a flag.
pub(super) fn check(text: &str, syntax: &Syntax, scope: &Scope) -> Result<Expression, Vec<Fault>> {
    let mut checker = Checker::new(text, scope);
    let root = checker.flag(syntax, "a rule asks for a flag");
    checker.variables_against_words();
    let mut work = checker.work;
    let (Some(root), true) = (root, work.faults.is_empty()) else {
        work.faults.sort_by_key(|fault| (fault.at.start, fault.at.end));
        work.faults.dedup();
        // What lies inside a wider fault only follows from it: `a-b` for `a_b` leaves a stray `b`.
        let all = work.faults.clone();
        work.faults.retain(|fault| {
            let holds = |wider: &Fault| {
                wider.at.start <= fault.at.start && fault.at.end <= wider.at.end && wider.at.len() > fault.at.len()
            };
            !all.iter().any(holds)
        });
        return Err(work.faults);
    };
    let mut conditions = Vec::new();
    leaves(&work, root, &mut conditions);
    conditions.sort_by_key(|condition| (condition.at.start, condition.at.end));
    work.literals.sort_by_key(|literal| literal.at.start);
    work.signs.sort_by_key(|sign| sign.at.start);
    work.value_uses.sort_by_key(|value| value.at.start);
    Ok(Expression {
        text: text.to_owned(),
        program: work.program,
        root,
        conditions,
        literals: work.literals,
        signs: work.signs,
        value_uses: work.value_uses,
    })
}

/// Collects the leaves below a node: what is no junction, no quantifier and no filter of one.
fn leaves(work: &Work, ix: Ix, conditions: &mut Vec<Condition>) {
    if let Some(at) = work.leaves.get(&ix) {
        conditions.push(Condition { at: at.clone(), node: ix, powers: work.dimensions.get(&ix).copied().map(powers) });
        return;
    }
    match work.program.node(ix) {
        Node::Not(of) => leaves(work, of, conditions),
        Node::And(left, right) | Node::Or(left, right) => {
            leaves(work, left, conditions);
            leaves(work, right, conditions);
        }
        Node::FlagIf { test, yes, no } => {
            for branch in [test, yes, no] {
                leaves(work, branch, conditions);
            }
        }
        Node::Each { list, body, .. } | Node::Kept { list, body, .. } => {
            leaves(work, list, conditions);
            leaves(work, body, conditions);
        }
        _ => {}
    }
}

/// What has been compiled so far. A piece that is only tried is undone by putting an earlier copy back.
#[derive(Clone, Default)]
pub(super) struct Work {
    pub program: Program,
    pub leaves: HashMap<Ix, Range<usize>>,
    /// What the numbers of a comparison measure.
    pub dimensions: HashMap<Ix, Dimension>,
    pub literals: Vec<Literal>,
    pub signs: Vec<SignPlace>,
    pub value_uses: Vec<ValueUse>,
    pub faults: Vec<Fault>,
    /// The words of choices that were used.
    pub words: Vec<String>,
    /// Every variable of a list macro with its place.
    pub variables: Vec<(String, Range<usize>)>,
}

/// A compiled piece.
#[derive(Clone, Debug)]
pub(super) struct Typed {
    pub node: Ix,
    pub kind: ValueType,
}

/// A variable of a list macro while its body is read.
pub(super) struct Variable {
    pub name: String,
    pub kinds: Kinds,
}

pub(super) struct Checker<'a> {
    pub text: &'a str,
    pub scope: &'a Scope<'a>,
    pub work: Work,
    pub alive: Vec<Variable>,
    /// Whether what is checked is shown in a sentence.
    pub showing: bool,
}

impl<'a> Checker<'a> {
    pub fn new(text: &'a str, scope: &'a Scope<'a>) -> Self {
        Self { text, scope, work: Work::default(), alive: Vec::new(), showing: false }
    }

    pub fn fault(&mut self, at: &Range<usize>, message: impl Into<String>, help: impl Into<String>) {
        let help = help.into();
        self.work.faults.push(Fault {
            at: at.clone(),
            message: message.into(),
            help: (!help.is_empty()).then_some(help),
        });
    }

    /// The text at a place, for messages.
    pub fn written_at(&self, at: &Range<usize>) -> &'a str {
        self.text.get(at.clone()).unwrap_or("")
    }

    pub fn push(&mut self, node: Node) -> Ix {
        // The number of tokens is bounded far below the range of a node's number.
        let ix = Ix::try_from(self.work.program.nodes.len()).unwrap_or(Ix::MAX);
        self.work.program.nodes.push(node);
        ix
    }

    /// A leaf: a comparison or a flag.
    pub fn push_leaf(&mut self, node: Node, at: &Range<usize>) -> Typed {
        let node = self.push(node);
        self.work.leaves.insert(node, at.clone());
        Typed { node, kind: ValueType::Flag }
    }

    /// A leaf that says the opposite of a node when asked to.
    pub fn push_leaf_unless(&mut self, negated: bool, node: Node, at: &Range<usize>) -> Typed {
        if negated {
            let inner = self.push(node);
            self.push_leaf(Node::Not(inner), at)
        } else {
            self.push_leaf(node, at)
        }
    }

    pub fn fact_ix(&mut self, fact: FactRef) -> Ix {
        let facts = &mut self.work.program.facts;
        let found = facts.iter().position(|known| *known == fact).unwrap_or_else(|| {
            facts.push(fact);
            facts.len() - 1
        });
        Ix::try_from(found).unwrap_or(Ix::MAX)
    }

    pub fn text_ix(&mut self, text: &str) -> Ix {
        self.work.program.texts.push(text.to_owned());
        Ix::try_from(self.work.program.texts.len() - 1).unwrap_or(Ix::MAX)
    }

    /// Checks a piece and undoes it again when it has a fault.
    pub fn attempt(&mut self, syntax: &Syntax) -> Option<Typed> {
        let before = self.work.clone();
        let typed = self.expression(syntax);
        if self.work.faults.len() > before.faults.len() || typed.is_none() {
            self.work = before;
            return None;
        }
        typed
    }

    /// A piece that must be a flag.
    pub fn flag(&mut self, syntax: &Syntax, why: &str) -> Option<Ix> {
        let typed = self.expression(syntax)?;
        if typed.kind == ValueType::Flag {
            return Some(typed.node);
        }
        let written = self.written_at(&syntax.at);
        let help = match typed.kind {
            ValueType::Number { .. } => format!("compare it: {written} <= …"),
            ValueType::Choice(words) => {
                format!(
                    "compare it: {written} == {}",
                    words.first().map_or(String::new(), |word| super::value_type::written(word))
                )
            }
            ValueType::Parts(_) => {
                format!("ask {written}.all(x, …), {written}.exists(x, …) or {written}.size() >= 1")
            }
            _ => String::new(),
        };
        self.fault(&syntax.at, format!("{why}, but `{written}` is {}", typed.kind.words()), help);
        None
    }

    /// Any piece.
    pub fn expression(&mut self, syntax: &Syntax) -> Option<Typed> {
        let at = &syntax.at;
        match &syntax.kind {
            SyntaxKind::Number { value, step } => Some(self.literal(*value, *step, at)),
            SyntaxKind::Flag(flag) => {
                let node = self.push(Node::Flag(*flag));
                Some(Typed { node, kind: ValueType::Flag })
            }
            SyntaxKind::Text(text) => {
                let text = self.text_ix(text);
                let node = self.push(Node::TextLiteral(text));
                Some(Typed { node, kind: ValueType::Text })
            }
            SyntaxKind::Name(name) => self.name(name, at),
            SyntaxKind::Field { of, field, field_at } => self.field(of, field, field_at, at),
            SyntaxKind::Unary { sign: Sign::Not, operand, .. } => {
                let of = self.flag(operand, "`!` turns a flag around")?;
                let node = self.push(Node::Not(of));
                Some(Typed { node, kind: ValueType::Flag })
            }
            SyntaxKind::Unary { operand, .. } => self.negative(operand, at),
            SyntaxKind::Binary { sign, sign_at, left, right } => self.binary(*sign, sign_at, left, right, at),
            SyntaxKind::Conditional { test, yes, no } => self.conditional(test, yes, no, at),
            SyntaxKind::Call { target: None, name, name_at, arguments } => self.function(name, name_at, arguments, at),
            SyntaxKind::Call { target: Some(target), name, name_at, arguments } => {
                self.method(target, name, name_at, arguments, at)
            }
            SyntaxKind::List(_) => {
                self.fault(at, "a list can only stand behind `in`", "write word in [one, other]");
                None
            }
            SyntaxKind::Foreign { what } => {
                self.fault(at, format!("{what} is not part of the rule language"), "");
                None
            }
        }
    }

    fn binary(
        &mut self,
        sign: Sign,
        sign_at: &Range<usize>,
        left: &Syntax,
        right: &Syntax,
        at: &Range<usize>,
    ) -> Option<Typed> {
        match sign {
            Sign::And | Sign::Or => {
                let why = if sign == Sign::And { "`&&` joins flags" } else { "`||` joins flags" };
                // Both sides are checked, so that a fault of one does not hide those of the other.
                let (left, right) = (self.flag(left, why), self.flag(right, why));
                let (left, right) = (left?, right?);
                let node = self.push(if sign == Sign::And { Node::And(left, right) } else { Node::Or(left, right) });
                self.sign(node, sign_at);
                Some(Typed { node, kind: ValueType::Flag })
            }
            Sign::Equal | Sign::Differ => self.equality(sign == Sign::Differ, sign_at, left, right, at),
            Sign::In => self.membership(sign_at, left, right, at),
            Sign::AtMost | Sign::AtLeast | Sign::Below | Sign::Above => self.order(sign, sign_at, left, right, at),
            Sign::Plus | Sign::Minus | Sign::Times | Sign::Over | Sign::Not | Sign::Negative => {
                self.arithmetic(sign, sign_at, left, right)
            }
        }
    }

    /// Remembers where a sign stands that a mutant may change.
    pub fn sign(&mut self, node: Ix, at: &Range<usize>) {
        self.work.signs.push(SignPlace { node, at: at.clone() });
    }

    fn conditional(&mut self, test: &Syntax, yes: &Syntax, no: &Syntax, at: &Range<usize>) -> Option<Typed> {
        let condition = self.flag(test, "a question `?` asks a flag");
        let (yes_typed, no_typed) = (self.expression(yes), self.expression(no));
        let (test, yes_typed, no_typed) = (condition?, yes_typed?, no_typed?);
        match (&yes_typed.kind, &no_typed.kind) {
            (ValueType::Flag, ValueType::Flag) => {
                let node = self.push(Node::FlagIf { test, yes: yes_typed.node, no: no_typed.node });
                Some(Typed { node, kind: ValueType::Flag })
            }
            (
                ValueType::Number { dimension: one, count: left_count },
                ValueType::Number { dimension: other, count: right_count },
            ) if one == other => {
                let node = self.push(Node::NumberIf { test, yes: yes_typed.node, no: no_typed.node });
                Some(Typed { node, kind: ValueType::Number { dimension: *one, count: *left_count && *right_count } })
            }
            (one, other) if matches!(one, ValueType::Flag | ValueType::Number { .. }) => {
                let message = format!(
                    "both answers of a question must be alike, but these are {} and {}",
                    one.words(),
                    other.words()
                );
                self.fault(&no.at, message, "");
                None
            }
            (one, _) => {
                let message = format!("a question answers with a flag or a number, not with {}", one.words());
                self.fault(at, message, "use && and || instead");
                None
            }
        }
    }
}
