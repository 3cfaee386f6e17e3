//! The type check of functions, of points on a thermometer (`degC(35)`) and of `is(part, kind)`.

use super::arithmetic::{difference_help, dimension_words};
use super::check::{Checker, Typed};
use super::node::{Combine, Literal, Node};
use super::syntax::{Sign, Syntax, SyntaxKind};
use super::value_type::{Kinds, ValueType, with_article};
use quantity::Dimension;
use std::ops::Range;
use vocabulary::nearest;

/// The functions of the language.
const FUNCTIONS: &[&str] = &["min", "max", "abs", "sqrt", "has", "is", "size"];

impl Checker<'_> {
    /// A function.
    pub fn function(
        &mut self,
        name: &str,
        name_at: &Range<usize>,
        arguments: &[Syntax],
        at: &Range<usize>,
    ) -> Option<Typed> {
        match (name, arguments) {
            ("min" | "max", [first, more @ ..]) if !more.is_empty() => {
                let how = if name == "min" { Combine::Least } else { Combine::Most };
                self.extreme(how, name, first, more)
            }
            ("abs", [of]) => {
                let (typed, dimension, count) = self.number(of, "`abs` takes a number")?;
                self.no_point(dimension, &of.at, "made absolute")?;
                let node = self.push(Node::Magnitude(typed.node));
                Some(Typed { node, kind: ValueType::Number { dimension, count } })
            }
            ("sqrt", [of]) => self.root(of),
            ("has", [of]) => self.has(of, at),
            ("is", [part, kind]) => self.is(part, kind, at),
            ("size", [list]) => self.size(list),
            _ if FUNCTIONS.contains(&name) => {
                let wanted = match name {
                    "min" | "max" => "two numbers or more",
                    "is" => "a part and the word of a kind",
                    _ => "one argument",
                };
                self.fault(at, format!("`{name}` takes {wanted}"), "");
                None
            }
            _ => self.point_or_unknown(name, name_at, arguments, at),
        }
    }

    fn extreme(&mut self, how: Combine, name: &str, first: &Syntax, more: &[Syntax]) -> Option<Typed> {
        let why = format!("`{name}` takes numbers");
        let (mut typed, dimension, mut count) = self.number(first, &why)?;
        for next in more {
            let (other, other_dimension, other_count) = self.number(next, &why)?;
            if other_dimension != dimension {
                let message = format!(
                    "`{name}` takes numbers of one dimension: {} and {} are two",
                    dimension_words(dimension),
                    dimension_words(other_dimension)
                );
                self.fault(&next.at, message, difference_help(dimension, other_dimension));
                return None;
            }
            count &= other_count;
            typed = self.combine(how, &typed, &other, dimension, count);
        }
        Some(typed)
    }

    fn root(&mut self, of: &Syntax) -> Option<Typed> {
        let (typed, dimension, _) = self.number(of, "`sqrt` takes a number")?;
        self.no_point(dimension, &of.at, "put under a root")?;
        let powers = [
            dimension.length,
            dimension.mass,
            dimension.time,
            dimension.current,
            dimension.temperature,
            dimension.angle,
            dimension.money,
        ];
        if powers.iter().any(|power| power % 2 != 0) {
            let message = format!("the root of {} is no quantity", dimension_words(dimension));
            self.fault(&of.at, message, "take the root of an area, of a product of two like quantities or of a ratio");
            return None;
        }
        let node = self.push(Node::Root(typed.node));
        let [length, mass, time, current, temperature, angle, money] = powers.map(|power| power / 2);
        let dimension = Dimension { length, mass, time, current, temperature, angle, money, absolute: false };
        Some(Typed { node, kind: ValueType::quantity(dimension) })
    }

    /// `degC(35)`, or a function that does not exist.
    fn point_or_unknown(
        &mut self,
        name: &str,
        name_at: &Range<usize>,
        arguments: &[Syntax],
        at: &Range<usize>,
    ) -> Option<Typed> {
        let written = arguments.first().map_or("35", |argument| self.written_at(&argument.at));
        match quantity::unit_by_identifier(name) {
            Some(unit) if unit.dimension.is_point() => {
                let [Syntax { kind: SyntaxKind::Number { value, step }, at: number_at }] = arguments else {
                    self.fault(at, format!("`{name}` takes one number"), format!("write {name}(35)"));
                    return None;
                };
                let node = self.push(Node::Number(unit.to_si(*value)));
                self.work.literals.push(Literal { node, step: step * unit.factor, at: number_at.clone() });
                Some(Typed { node, kind: ValueType::quantity(unit.dimension) })
            }
            Some(_) => {
                self.fault(at, format!("`{name}` is a factor, not a function"), format!("write {written} * {name}"));
                None
            }
            None => {
                let help = match nearest(name, FUNCTIONS.iter().copied()) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None if matches!(name, "all" | "exists" | "exists_one" | "filter" | "map" | "sum" | "count") => {
                        format!("write it behind a list: conductors.{name}(…)")
                    }
                    None => format!("there are {}", FUNCTIONS.join(", ")),
                };
                self.fault(name_at, format!("there is no function `{name}`"), help);
                None
            }
        }
    }

    /// `is(part, kind)`.
    fn is(&mut self, part: &Syntax, kind: &Syntax, at: &Range<usize>) -> Option<Typed> {
        let typed = self.part(part)?;
        let ValueType::Part(kinds) = &typed.kind else {
            return None;
        };
        let Some(kind_found) = kind_named(kind) else {
            let near = kind.word().and_then(|word| nearest(word, vocabulary::parts().iter().map(|part| part.word)));
            let message = format!("`{}` is no kind of part", self.written_at(&kind.at));
            self.fault(
                &kind.at,
                message,
                near.map_or(String::new(), |near| format!("did you mean `{}`?", super::value_type::written(near))),
            );
            return None;
        };
        if !kinds.of.contains(&kind_found) {
            let word = vocabulary::part(kind_found).word;
            let message = format!("`{}` is never {}", self.written_at(&part.at), with_article(word));
            self.fault(&kind.at, message, format!("it can be {}", kinds.words()));
            return None;
        }
        Some(self.push_leaf(Node::IsKind { part: typed.node, kind: kind_found.0 }, at))
    }

    /// The kinds that remain of a variable where a condition on it holds.
    pub fn narrowed(&self, variable: &str, kinds: &Kinds, condition: &Syntax) -> Kinds {
        match &condition.kind {
            SyntaxKind::Binary { sign: Sign::And, left, right, .. } => {
                let left = self.narrowed(variable, kinds, left);
                self.narrowed(variable, &left, right)
            }
            SyntaxKind::Call { target: None, name, arguments, .. } if name == "is" => match arguments.as_slice() {
                [part, kind] if part.word() == Some(variable) => match kind_named(kind) {
                    Some(kind) if kinds.of.len() > 1 => Kinds { of: vec![kind], narrowed: true },
                    _ => kinds.clone(),
                },
                _ => kinds.clone(),
            },
            _ => kinds.clone(),
        }
    }
}

fn kind_named(syntax: &Syntax) -> Option<vocabulary::PartKind> {
    let word = syntax.word()?;
    vocabulary::parts().iter().find(|part| super::value_type::written(part.word) == word).map(|part| part.kind)
}
