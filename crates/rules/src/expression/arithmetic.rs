//! The type check of numbers: units, sums, products, functions and comparisons by order.

use super::check::{Checker, Typed};
use super::names::fact_of;
use super::node::{Combine, Compare, Literal, Node};
use super::syntax::{Sign, Syntax, SyntaxKind};
use super::value_type::{ValueType, with_article};
use quantity::{Dimension, Unit};
use std::ops::Range;

impl Checker<'_> {
    /// A number that the author wrote.
    pub fn literal(&mut self, value: f64, step: f64, at: &Range<usize>) -> Typed {
        let node = self.push(Node::Number(value));
        self.work.literals.push(Literal { node, step, at: at.clone() });
        Typed { node, kind: ValueType::Number { dimension: Dimension::RATIO, count: value.fract() == 0.0 } }
    }

    /// The unit that a piece names, unless something nearer bears that name.
    fn unit(&self, syntax: &Syntax) -> Option<&'static Unit> {
        let SyntaxKind::Name(name) = &syntax.kind else {
            return None;
        };
        let shadowed = self.alive.iter().any(|variable| variable.name == *name)
            || fact_of(self.scope.about, name).is_some()
            || self.scope.value(name).is_some();
        if shadowed { None } else { quantity::unit_by_identifier(name) }
    }

    /// A unit as a factor.
    pub fn unit_alone(&mut self, unit: &'static Unit, at: &Range<usize>) -> Option<Typed> {
        if unit.dimension.is_point() {
            let name = unit.identifier;
            let message = format!("`{name}` is no factor: its zero is not nothing");
            self.fault(at, message, format!("write {name}(35) for a point on the thermometer, 5 * K for a difference"));
            return None;
        }
        let node = self.push(Node::Number(unit.factor));
        Some(Typed { node, kind: ValueType::quantity(unit.dimension) })
    }

    /// `178 * mm` in one node, so that the number is a threshold with its unit.
    fn literal_with_unit(&mut self, left: &Syntax, right: &Syntax) -> Option<Typed> {
        let (number, unit) = match (&left.kind, &right.kind) {
            (SyntaxKind::Number { .. }, _) => (left, self.unit(right)?),
            (_, SyntaxKind::Number { .. }) => (right, self.unit(left)?),
            _ => return None,
        };
        let (SyntaxKind::Number { value, step }, at) = (&number.kind, &number.at) else {
            return None;
        };
        if unit.dimension.is_point() {
            return None;
        }
        let node = self.push(Node::Number(value * unit.factor));
        self.work.literals.push(Literal { node, step: step * unit.factor, at: at.clone() });
        Some(Typed { node, kind: ValueType::quantity(unit.dimension) })
    }

    /// A piece that must be a number.
    pub fn number(&mut self, syntax: &Syntax, why: &str) -> Option<(Typed, Dimension, bool)> {
        let typed = self.expression(syntax)?;
        if let ValueType::Number { dimension, count } = typed.kind {
            return Some((typed, dimension, count));
        }
        let written = self.written_at(&syntax.at);
        let help = match typed.kind {
            ValueType::Choice(_) | ValueType::Text | ValueType::Part(_) => "compare it with == or !=".to_owned(),
            ValueType::Parts(_) => format!("{written}.size() counts it"),
            _ => String::new(),
        };
        self.fault(&syntax.at, format!("{why}, but `{written}` is {}", typed.kind.words()), help);
        None
    }

    pub fn combine(&mut self, how: Combine, left: &Typed, right: &Typed, dimension: Dimension, count: bool) -> Typed {
        let node = self.push(Node::Combine { how, left: left.node, right: right.node });
        Typed { node, kind: ValueType::Number { dimension, count } }
    }

    pub fn arithmetic(&mut self, sign: Sign, sign_at: &Range<usize>, left: &Syntax, right: &Syntax) -> Option<Typed> {
        if sign == Sign::Times
            && let Some(typed) = self.literal_with_unit(left, right)
        {
            return Some(typed);
        }
        let why = "one reckons with numbers only";
        let (left_number, right_number) = (self.number(left, why), self.number(right, why));
        let ((one, left_dimension, left_count), (other, right_dimension, right_count)) = (left_number?, right_number?);
        let (how, dimension) = match sign {
            Sign::Plus => (Combine::Sum, left_dimension.plus(right_dimension)),
            Sign::Minus => (Combine::Difference, left_dimension.minus(right_dimension)),
            _ => {
                for (dimension, at) in [(left_dimension, &left.at), (right_dimension, &right.at)] {
                    if dimension.is_point() {
                        let message = format!(
                            "`{}` is a point on a thermometer, which cannot be multiplied or divided",
                            self.written_at(at)
                        );
                        self.fault(at, message, "take its difference from another point first");
                        return None;
                    }
                }
                if sign == Sign::Times {
                    (Combine::Product, Some(left_dimension.times(right_dimension)))
                } else {
                    (Combine::Quotient, Some(left_dimension.over(right_dimension)))
                }
            }
        };
        let Some(dimension) = dimension else {
            let (verb, joint) = if sign == Sign::Plus { ("add", "to") } else { ("take", "from") };
            let (first, second) = (dimension_words(right_dimension), dimension_words(left_dimension));
            let help = difference_help(left_dimension, right_dimension);
            self.fault(sign_at, format!("one cannot {verb} {first} {joint} {second}"), help);
            return None;
        };
        let count = left_count && right_count && how != Combine::Quotient;
        Some(self.combine(how, &one, &other, dimension, count))
    }

    pub fn negative(&mut self, operand: &Syntax, at: &Range<usize>) -> Option<Typed> {
        let (typed, dimension, count) = self.number(operand, "a minus sign turns a number around")?;
        self.no_point(dimension, at, "turned around")?;
        let node = self.push(Node::Negative(typed.node));
        Some(Typed { node, kind: ValueType::Number { dimension, count } })
    }

    pub fn no_point(&mut self, dimension: Dimension, at: &Range<usize>, what: &str) -> Option<()> {
        if !dimension.is_point() {
            return Some(());
        }
        let message = format!("a point on a thermometer cannot be {what}");
        self.fault(
            at,
            message,
            "write degC(-12) for a point below zero; take its difference from another point to reckon on",
        );
        None
    }

    pub fn order(
        &mut self,
        sign: Sign,
        sign_at: &Range<usize>,
        left: &Syntax,
        right: &Syntax,
        at: &Range<usize>,
    ) -> Option<Typed> {
        let how = match sign {
            Sign::AtMost => Compare::AtMost,
            Sign::AtLeast => Compare::AtLeast,
            Sign::Below => Compare::Below,
            _ => Compare::Above,
        };
        let why = format!("`{}` compares numbers", how.sign());
        let (left_number, right_number) = (self.number(left, &why), self.number(right, &why));
        let ((one, left_dimension, _), (other, right_dimension, _)) = (left_number?, right_number?);
        self.comparable(sign_at, (left, left_dimension), (right, right_dimension))?;
        let typed = self.push_leaf(Node::Compare { how, left: one.node, right: other.node }, at);
        self.work.dimensions.insert(typed.node, left_dimension);
        self.sign(typed.node, sign_at);
        Some(typed)
    }

    /// Refuses two numbers of different dimensions.
    pub fn comparable(
        &mut self,
        sign_at: &Range<usize>,
        left: (&Syntax, Dimension),
        right: (&Syntax, Dimension),
    ) -> Option<()> {
        if left.1 == right.1 {
            return Some(());
        }
        let bare = [(left, right.1), (right, left.1)].into_iter().find_map(|((syntax, _), wanted)| match syntax.kind {
            SyntaxKind::Number { .. } => Some((syntax.at.clone(), wanted)),
            _ => None,
        });
        if let Some((at, wanted)) = bare {
            let number = self.written_at(&at);
            let help = match wanted.is_point() {
                true => format!("write degC({number})"),
                false => match unit_for(wanted) {
                    Some(unit) => format!("write {number} * {unit}, or another unit"),
                    None => String::new(),
                },
            };
            self.fault(&at, format!("this number needs a unit: it is compared with {}", dimension_words(wanted)), help);
            return None;
        }
        let message = format!("{} cannot be compared with {}", dimension_words(left.1), dimension_words(right.1));
        self.fault(sign_at, message, difference_help(left.1, right.1));
        None
    }
}

/// A dimension in words: 'a current', 'a bare number'.
pub(super) fn dimension_words(dimension: Dimension) -> String {
    if dimension == Dimension::RATIO {
        return "a bare number".to_owned();
    }
    if dimension.is_point() {
        return "a point on a thermometer".to_owned();
    }
    with_article(&dimension.name())
}

pub(super) fn difference_help(one: Dimension, other: Dimension) -> String {
    if one.as_difference() == other.as_difference() {
        "write degC(35) for a point on the thermometer, 5 * K for a difference".to_owned()
    } else {
        String::new()
    }
}

/// A usual unit of a dimension: that of the coherent system, if the table has it.
fn unit_for(dimension: Dimension) -> Option<&'static str> {
    let of = |unit: &&Unit| unit.dimension == dimension;
    let units = quantity::units();
    units
        .iter()
        .filter(of)
        .find(|unit| unit.factor == 1.0)
        .or_else(|| units.iter().find(of))
        .map(|unit| unit.identifier)
}
