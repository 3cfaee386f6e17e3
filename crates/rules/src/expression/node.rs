//! A compiled expression: nodes in one list that refer to each other by number, and what explains them.

use super::template::dimension;
use quantity::Dimension;
use serde::{Deserialize, Serialize};
use std::ops::Range;
use vocabulary::Axes;

/// The number of a node, or of an entry of one of the tables beside the nodes.
pub(super) type Ix = u16;

/// How many variables of list macros can be alive at once. Chosen: three are already hard to read.
pub(super) const MOST_VARIABLES: usize = 6;

/// One step of the evaluation.
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
pub(super) enum Node {
    // Numbers, in coherent SI units; NaN is unknown.
    Number(f64),
    Value(u16),
    NumberFact {
        of: Ix,
        fact: Ix,
    },
    Negative(Ix),
    Magnitude(Ix),
    Root(Ix),
    Combine {
        how: Combine,
        left: Ix,
        right: Ix,
    },
    NumberIf {
        test: Ix,
        yes: Ix,
        no: Ix,
    },
    Size(Ix),
    Total {
        how: Total,
        list: Ix,
        slot: u8,
        body: Ix,
    },
    // Parts.
    About,
    Variable(u8),
    PartFact {
        of: Ix,
        fact: Ix,
    },
    // Lists of parts.
    PartsFact {
        of: Ix,
        fact: Ix,
    },
    Kept {
        list: Ix,
        slot: u8,
        body: Ix,
    },
    // Words and texts.
    ChoiceFact {
        of: Ix,
        fact: Ix,
    },
    ChoiceSetFact {
        of: Ix,
        fact: Ix,
    },
    TextFact {
        of: Ix,
        fact: Ix,
    },
    TextLiteral(Ix),
    // Flags.
    Flag(bool),
    FlagFact {
        of: Ix,
        fact: Ix,
    },
    Not(Ix),
    And(Ix, Ix),
    Or(Ix, Ix),
    FlagIf {
        test: Ix,
        yes: Ix,
        no: Ix,
    },
    Compare {
        how: Compare,
        left: Ix,
        right: Ix,
    },
    /// Whether the chosen word is among these (a bit set over the fact's list of words).
    ChoiceIn {
        choice: Ix,
        words: u64,
    },
    ChoiceSame(Ix, Ix),
    SetHas {
        set: Ix,
        word: u8,
    },
    /// Whether the text is among these entries of the table of texts.
    TextIn {
        text: Ix,
        first: u16,
        count: u16,
    },
    TextSame(Ix, Ix),
    PartSame(Ix, Ix),
    PartIn {
        part: Ix,
        list: Ix,
    },
    IsKind {
        part: Ix,
        kind: u16,
    },
    Has {
        of: Ix,
        fact: Ix,
    },
    Each {
        how: Each,
        list: Ix,
        slot: u8,
        body: Ix,
    },
}

/// What two numbers make.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub(super) enum Combine {
    Sum,
    Difference,
    Product,
    Quotient,
    Least,
    Most,
}

/// What the numbers of a list make.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub(super) enum Total {
    Sum,
    Least,
    Most,
}

/// How two numbers are compared.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub(super) enum Compare {
    AtMost,
    AtLeast,
    Below,
    Above,
    Equal,
    Differ,
}

impl Compare {
    /// The comparison that holds where this one fails.
    pub fn opposite(self) -> Self {
        match self {
            Self::AtMost => Self::Above,
            Self::AtLeast => Self::Below,
            Self::Below => Self::AtLeast,
            Self::Above => Self::AtMost,
            Self::Equal => Self::Differ,
            Self::Differ => Self::Equal,
        }
    }

    /// The sign as it is written.
    pub fn sign(self) -> &'static str {
        match self {
            Self::AtMost => "<=",
            Self::AtLeast => ">=",
            Self::Below => "<",
            Self::Above => ">",
            Self::Equal => "==",
            Self::Differ => "!=",
        }
    }
}

/// For which elements of a list a condition holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub(super) enum Each {
    All,
    Exists,
    One,
}

/// The fact behind a name: one, or by the kind of the part that is asked.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub(super) enum FactRef {
    One(u16),
    /// Part kind and fact.
    ByKind(Vec<(u16, u16)>),
}

impl FactRef {
    /// Every fact that may be read.
    pub fn facts(&self) -> Vec<u16> {
        match self {
            Self::One(fact) => vec![*fact],
            Self::ByKind(facts) => facts.iter().map(|(_, fact)| *fact).collect(),
        }
    }
}

/// A leaf of an expression: one comparison or one flag.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Condition {
    /// Where it stands, in bytes of the expression's text.
    pub at: Range<usize>,
    pub(super) node: Ix,
    /// Of a comparison of numbers, what they measure.
    pub(super) powers: Option<[i8; 8]>,
}

impl Condition {
    /// What a comparison of numbers compares; nothing for other leaves.
    pub fn dimension(&self) -> Option<Dimension> {
        self.powers.map(dimension)
    }
}

/// A number that the author wrote.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub(super) struct Literal {
    pub node: Ix,
    /// One unit of its last written digit, in SI units.
    pub step: f64,
    pub at: Range<usize>,
}

/// A place where an expression uses a named value of its rule.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct ValueUse {
    /// The value's number in [`super::Scope::values`].
    pub value: u16,
    /// Where, in bytes of the expression's text.
    pub at: Range<usize>,
}

/// A comparison's or a junction's sign, for the expressions of [`super::Mutant`].
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub(super) struct SignPlace {
    pub node: Ix,
    pub at: Range<usize>,
}

/// Nodes with the tables that they refer to.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(super) struct Program {
    pub nodes: Vec<Node>,
    pub facts: Vec<FactRef>,
    pub texts: Vec<String>,
}

impl Program {
    /// The node of that number; a number that is not there reads as unknown.
    #[inline(always)]
    pub fn node(&self, ix: Ix) -> Node {
        match self.nodes.get(usize::from(ix)) {
            Some(node) => *node,
            None => Node::Number(f64::NAN),
        }
    }

    /// The union of the axes of every fact that may be read.
    pub fn axes(&self) -> Axes {
        let facts = self.facts.iter().flat_map(FactRef::facts);
        facts.fold(Axes::NONE, |axes, fact| match vocabulary::facts().get(usize::from(fact)) {
            Some(spec) => axes.and(spec.axes),
            None => axes,
        })
    }
}

/// A flag expression of a rule, checked and compiled.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Expression {
    pub(super) text: String,
    pub(super) program: Program,
    pub(super) root: Ix,
    pub(super) conditions: Vec<Condition>,
    pub(super) literals: Vec<Literal>,
    pub(super) signs: Vec<SignPlace>,
    pub(super) value_uses: Vec<ValueUse>,
}

impl Expression {
    /// The text that it was compiled from.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Every leaf, in text order: comparisons and flags, those in the bodies of `all` and its like included.
    pub fn conditions(&self) -> &[Condition] {
        &self.conditions
    }

    /// A leaf as it is written.
    pub fn condition_text(&self, condition: &Condition) -> &str {
        self.text.get(condition.at.clone()).unwrap_or("")
    }

    /// Where the named values of the rule are used, in text order. Who proves a rule passes other values to move them.
    pub fn value_uses(&self) -> &[ValueUse] {
        &self.value_uses
    }

    /// What its outcome may vary by.
    pub fn axes(&self) -> Axes {
        self.program.axes()
    }
}
