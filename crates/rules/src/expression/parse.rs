//! From text to [`Syntax`]: the only file that knows the cel crate.
//!
//! Its parser is asked for no macros, so that `all`, `exists`, `filter`, `map` and `has` stay the calls that were written.
//! It takes more than 150 kB of stack for each level of brackets (measured on cel 0.15.0 without optimisation), so it runs on
//! a thread of its own whose stack holds the deepest text that [`super::token`] lets through.

use super::Fault;
use super::syntax::{Sign, Syntax, SyntaxKind};
use super::token::{Kind, Tokens, tokens};
use cel::common::ast::{Expr, IdedExpr, LiteralValue, SourceInfo, operators};
use std::ops::Range;

/// The stack of the parser's thread in bytes. Only what is touched is ever taken from memory.
const PARSER_STACK: usize = 64 << 20;

/// Parses an expression.
pub(super) fn parse(text: &str) -> Result<Syntax, Vec<Fault>> {
    let tokens = tokens(text)?;
    let broken = |why: &str| vec![Fault { at: 0..text.len(), message: why.to_owned(), help: None }];
    std::thread::scope(|scope| {
        std::thread::Builder::new()
            .stack_size(PARSER_STACK)
            .spawn_scoped(scope, || read(text, &tokens))
            .map_err(|_| broken("no thread could be started to read this expression"))?
            .join()
            .map_err(|_| broken("this expression cannot be read"))?
    })
}

fn read(text: &str, tokens: &Tokens<'_>) -> Result<Syntax, Vec<Fault>> {
    let parser = cel::Env::default().with_optional_support(false).parser();
    match parser.parse_with_source_info(text) {
        Ok((expression, source)) => Ok(Reading { source: &source, tokens }.syntax(expression)),
        // What follows the first error mostly follows from it.
        Err(errors) => Err(errors.errors.into_iter().take(1).map(|error| refusal(error.pos, tokens)).collect()),
    }
}

/// The fault for a position that the parser names by line and column, both from 1 and in characters.
fn refusal((line, column): (isize, isize), tokens: &Tokens<'_>) -> Fault {
    let (line, column) = (usize::try_from(line - 1).unwrap_or(0), usize::try_from(column - 1).unwrap_or(0));
    let line_start: usize = tokens.text.split_inclusive('\n').take(line).map(str::len).sum();
    let rest = tokens.text.get(line_start..).unwrap_or("");
    let byte = line_start + rest.char_indices().nth(column).map_or(rest.len(), |(byte, _)| byte);
    match tokens.list.iter().find(|token| token.at.end > byte) {
        Some(token) => Fault {
            at: token.at.clone(),
            message: format!("`{}` cannot stand here", tokens.word(token)),
            help: Some("a fact, a number or a bracket is missing before it, or it is one too many".to_owned()),
        },
        None => Fault {
            at: tokens.list.last().map_or(0..tokens.text.len(), |token| token.at.clone()),
            message: "the expression ends too early".to_owned(),
            help: Some("something must follow".to_owned()),
        },
    }
}

struct Reading<'a, 't> {
    source: &'a SourceInfo,
    tokens: &'a Tokens<'t>,
}

impl Reading<'_, '_> {
    /// The place of a node's own token: the parser's second number is that of its last byte.
    fn place(&self, id: u64) -> Range<usize> {
        match self.source.offset_for(id) {
            Some((first, last)) => first as usize..(last as usize + 1).min(self.tokens.text.len()),
            None => 0..self.tokens.text.len(),
        }
    }

    fn syntax(&self, node: IdedExpr) -> Syntax {
        let own = self.place(node.id);
        match node.expr {
            Expr::Literal(literal) => self.literal(literal, own),
            Expr::Ident(name) => Syntax { at: own, kind: SyntaxKind::Name(name.trim_start_matches('.').to_owned()) },
            Expr::Select(select) => {
                let of = self.syntax(*select.operand);
                let field_at =
                    match self.tokens.starting_at(own.start).and_then(|(index, _)| self.tokens.list.get(index + 1)) {
                        Some(token) => token.at.clone(),
                        None => own,
                    };
                Syntax {
                    at: of.at.start..field_at.end,
                    kind: SyntaxKind::Field { of: Box::new(of), field: select.field, field_at },
                }
            }
            Expr::List(list) => {
                let elements = list.elements.into_iter().map(|element| self.syntax(element)).collect();
                Syntax { at: self.through_bracket(own), kind: SyntaxKind::List(elements) }
            }
            Expr::Call(call) => {
                let arguments: Vec<Syntax> = call.args.into_iter().map(|argument| self.syntax(argument)).collect();
                let target = call.target.map(|target| self.syntax(*target));
                self.call(call.func_name, target, arguments, own)
            }
            Expr::Map(_) | Expr::Struct(_) => foreign(self.through_bracket(own), "a map"),
            Expr::Comprehension(_) | Expr::Unspecified => foreign(own, "this"),
        }
    }

    fn literal(&self, literal: LiteralValue, own: Range<usize>) -> Syntax {
        let kind = match literal {
            LiteralValue::Int(_) | LiteralValue::UInt(_) | LiteralValue::Double(_) => {
                return self.number(own);
            }
            LiteralValue::Boolean(flag) => SyntaxKind::Flag(*flag.inner()),
            LiteralValue::String(text) => SyntaxKind::Text(text.inner().to_owned()),
            LiteralValue::Bytes(_) => return foreign(own, "a string of bytes"),
            LiteralValue::Null => return foreign(own, "null"),
        };
        Syntax { at: own, kind }
    }

    /// A number, read from the text so that its last written digit is known. A minus sign before it belongs to the parser's
    /// literal but not to its place: the tokens tell.
    fn number(&self, own: Range<usize>) -> Syntax {
        let written = self.tokens.text.get(own.clone()).unwrap_or("");
        let Ok(value) = written.parse::<f64>() else {
            return foreign(own, "a number in this notation");
        };
        let step = last_digit(written);
        let tokens = &self.tokens.list;
        let index = self.tokens.starting_at(own.start).map(|(index, _)| index);
        let minus = index.and_then(|index| index.checked_sub(1)).filter(|index| {
            let is_minus = tokens.get(*index).is_some_and(|token| self.tokens.word(token) == "-");
            // After an operand the minus is a subtraction, which the parser keeps apart.
            let follows_operand = index.checked_sub(1).and_then(|before| tokens.get(before)).is_some_and(|token| {
                matches!(token.kind, Kind::Name | Kind::Number | Kind::Text | Kind::Close)
                    && self.tokens.word(token) != "in"
            });
            is_minus && !follows_operand
        });
        match minus.and_then(|index| tokens.get(index)) {
            Some(sign) => Syntax { at: sign.at.start..own.end, kind: SyntaxKind::Number { value: -value, step } },
            None => Syntax { at: own, kind: SyntaxKind::Number { value, step } },
        }
    }

    fn through_bracket(&self, own: Range<usize>) -> Range<usize> {
        let close = self
            .tokens
            .starting_at(own.start)
            .and_then(|(_, token)| token.pair)
            .and_then(|pair| self.tokens.list.get(pair));
        own.start..close.map_or(own.end, |token| token.at.end)
    }

    fn call(&self, name: String, target: Option<Syntax>, mut arguments: Vec<Syntax>, own: Range<usize>) -> Syntax {
        let sign = SIGNS.iter().find(|(word, _)| *word == name).map(|(_, sign)| *sign);
        match (sign, arguments.len()) {
            (Some(sign), 1) => {
                if let Some(operand) = arguments.pop() {
                    return Syntax {
                        at: self.tokens.balanced(own.start..operand.at.end),
                        kind: SyntaxKind::Unary { sign, operand: Box::new(operand) },
                    };
                }
            }
            (Some(sign), 2) => {
                if let (Some(right), Some(left)) = (arguments.pop(), arguments.pop()) {
                    return Syntax {
                        at: self.tokens.balanced(left.at.start..right.at.end),
                        kind: SyntaxKind::Binary { sign, sign_at: own, left: Box::new(left), right: Box::new(right) },
                    };
                }
            }
            (None, 3) if name == operators::CONDITIONAL => {
                if let (Some(no), Some(yes), Some(test)) = (arguments.pop(), arguments.pop(), arguments.pop()) {
                    return Syntax {
                        at: self.tokens.balanced(test.at.start..no.at.end),
                        kind: SyntaxKind::Conditional { test: Box::new(test), yes: Box::new(yes), no: Box::new(no) },
                    };
                }
            }
            _ => {}
        }
        if name == operators::INDEX || name == operators::OPT_INDEX {
            return foreign(self.through_bracket(own), "picking an element by number");
        }
        if name.contains(['_', '@']) && !name.starts_with(|c: char| c.is_ascii_alphabetic()) {
            return foreign(own, "this operator");
        }
        let at = self.through_bracket(own.clone());
        let name_at = match self
            .tokens
            .starting_at(own.start)
            .and_then(|(index, _)| index.checked_sub(1))
            .and_then(|index| self.tokens.list.get(index))
        {
            Some(token) => token.at.clone(),
            None => own,
        };
        let start = target.as_ref().map_or(name_at.start, |target| target.at.start);
        Syntax {
            at: self.tokens.balanced(start..at.end),
            kind: SyntaxKind::Call { target: target.map(Box::new), name, name_at, arguments },
        }
    }
}

const SIGNS: &[(&str, Sign)] = &[
    (operators::LOGICAL_AND, Sign::And),
    (operators::LOGICAL_OR, Sign::Or),
    (operators::LOGICAL_NOT, Sign::Not),
    (operators::NEGATE, Sign::Negative),
    (operators::ADD, Sign::Plus),
    (operators::SUBSTRACT, Sign::Minus),
    (operators::MULTIPLY, Sign::Times),
    (operators::DIVIDE, Sign::Over),
    (operators::EQUALS, Sign::Equal),
    (operators::NOT_EQUALS, Sign::Differ),
    (operators::LESS_EQUALS, Sign::AtMost),
    (operators::GREATER_EQUALS, Sign::AtLeast),
    (operators::LESS, Sign::Below),
    (operators::GREATER, Sign::Above),
    (operators::IN, Sign::In),
];

fn foreign(at: Range<usize>, what: &'static str) -> Syntax {
    Syntax { at, kind: SyntaxKind::Foreign { what } }
}

/// One unit of the last written digit: 0.01 for 0.25, 1 for 178, 100 for 1.5e3.
fn last_digit(written: &str) -> f64 {
    let (digits, exponent) = match written.split_once(['e', 'E']) {
        Some((digits, exponent)) => (digits, exponent.parse::<i32>().unwrap_or(0)),
        None => (written, 0),
    };
    let decimals = digits.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    // Through the decimal notation, so that the step of 0.25 is the number 0.01 and not its neighbour.
    format!("1e{}", exponent.saturating_sub(i32::try_from(decimals).unwrap_or(0))).parse().unwrap_or(1.0)
}
