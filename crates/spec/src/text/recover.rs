//! Recovery from braces that do not match: ends blocks that are never closed where the indentation shows it, and finds the
//! line that lost its opening brace.

use super::fault::{FaultKind, TextFault};
use super::lexer::Token;
use super::outline::{Frame, NO_PART, Outliner, WITHIN_LINE};
use super::slips::{bytes, fault, with_mend};

/// The fault of an opening brace that is never closed, together with others around it.
pub(super) fn unclosed(brace: usize, count: usize) -> TextFault {
    let message = match count {
        0 | 1 => "This opening brace is never closed".to_owned(),
        2 => "This opening brace and the one around it are never closed".to_owned(),
        _ => format!("This opening brace and the {} around it are never closed", count - 1),
    };
    fault(
        FaultKind::UnclosedBlock,
        brace..brace + 1,
        message,
        "It cannot be told where the block ends, so what belongs to it may be missing or too much.",
        "Write } on a line of its own behind the last line that belongs to the block.".to_owned(),
    )
}

/// Ends blocks without a closing brace, from the outermost to the innermost, at `end`; one fault at the innermost.
fn end_unclosed(outliner: &mut Outliner<'_>, frames: &[Frame], end: usize) {
    let mut real = 0_usize;
    let mut innermost = None;
    for frame in frames.iter().filter(|frame| frame.part != NO_PART) {
        real += 1;
        innermost = Some(frame.brace);
        outliner.end_block(frame, end.max(frame.brace + 1));
        if let Some(part) = outliner.out.parts.get_mut(frame.part) {
            part.lost_inside = true;
        }
    }
    if let Some(brace) = innermost {
        outliner.out.faults.push(unclosed(brace, real));
    }
}

/// At the end of the text, every block that is still open ends.
pub(super) fn end_of_text(outliner: &mut Outliner<'_>) {
    let frames = std::mem::take(&mut outliner.stack);
    let end = outliner.last_end;
    end_unclosed(outliner, &frames, end);
}

/// A word stands in the first column while blocks are open whose own lines are indented: they end before it.
pub(super) fn end_blocks_before(outliner: &mut Outliner<'_>, end: usize) {
    let Some(outermost) = outliner.stack.first() else {
        return;
    };
    if outermost.indent != 0 || outermost.first_child_indent == Some(0) {
        return;
    }
    let frames = std::mem::take(&mut outliner.stack);
    end_unclosed(outliner, &frames, end);
}

/// A closing brace that is indented like the line of an outer block closes that one: the blocks within it are unclosed.
pub(super) fn end_blocks_within(outliner: &mut Outliner<'_>, indent: u32, brace: usize) {
    let Some(found) = outliner.stack.iter().rposition(|frame| frame.indent <= indent) else {
        return;
    };
    let matches = outliner.stack.get(found).is_some_and(|frame| frame.indent == indent);
    if !matches || found + 1 == outliner.stack.len() {
        return;
    }
    let frames = outliner.stack.split_off(found + 1);
    let before = outliner.text.get(..brace).unwrap_or_default().trim_end().len();
    end_unclosed(outliner, &frames, before);
}

/// A closing brace at the top level. Where the lines before it are indented, it shows which line lost its opening brace.
pub(super) fn stray_brace(outliner: &mut Outliner<'_>, token: Token, indent: u32) {
    let owner = if indent == 0 { owner(outliner) } else { None };
    let found = match owner {
        Some((position, part)) => adopt(outliner, position, part, token),
        None => Some(fault(
            FaultKind::StrayClosingBrace,
            token.start..token.end,
            "This brace closes nothing".to_owned(),
            "A block above may end too early, and what follows then belongs to nothing.",
            "Delete it, or write the opening brace that it belongs to.".to_owned(),
        )),
    };
    outliner.out.faults.extend(found);
    outliner.adopt_floor = outliner.out.tops.len();
}

/// The last top-level node in the first column, if indented ones stand behind it: its place among the top-level nodes and
/// its index. Not if it has a block that ends in the first column too.
fn owner(outliner: &Outliner<'_>) -> Option<(usize, usize)> {
    let tops = &outliner.out.tops;
    let (position, index) = (outliner.adopt_floor..tops.len()).rev().find_map(|position| {
        let index = *tops.get(position)?;
        (outliner.out.parts.get(index)?.indent == 0).then_some((position, index))
    })?;
    let part = outliner.out.parts.get(index)?;
    let closed_early = part.close_indent != WITHIN_LINE && part.close_indent > 0;
    let has_followers = position + 1 < tops.len();
    (has_followers && (part.block.is_none() || closed_early)).then_some((position, index))
}

/// Makes the top-level nodes behind `owner` its children.
fn adopt(outliner: &mut Outliner<'_>, position: usize, owner: usize, brace: Token) -> Option<TextFault> {
    let first = outliner.out.tops.get(position + 1).copied()?;
    outliner.out.tops.truncate(position + 1);
    for part in outliner.out.parts.iter_mut().skip(first) {
        part.depth += 1;
    }
    let text = outliner.text;
    let part = outliner.out.parts.get_mut(owner)?;
    let end = bytes(brace.start..brace.end).end;
    let early = part.block.clone();
    let opened = early.as_ref().map_or(bytes(part.head_end..part.head_end).end, |block| block.start);
    part.block = Some(opened..end);
    part.at.end = end;
    part.close_indent = 0;
    part.lost_inside = true;
    if let Some(early) = early {
        let early_end = early.end as usize;
        return Some(fault(
            FaultKind::UnopenedBlock,
            early_end.saturating_sub(1)..early_end,
            "This brace closes a block that begins further left".to_owned(),
            "What stands behind it is read as part of the same block, which may not be what was meant.",
            "Write the opening brace that is missing on a line above it.".to_owned(),
        ));
    }
    if part.unread {
        // The fault of the line itself says why its brace was not seen.
        return None;
    }
    let name = part.name.clone()?;
    let at = name.start as usize..name.end as usize;
    let written = text.get(at.clone()).unwrap_or_default();
    let head_end = part.head_end;
    let found = fault(
        FaultKind::UnopenedBlock,
        at,
        format!("An opening brace is missing at the end of the line of {written}"),
        "The indented lines below it are read as its parts, which may not be what was meant.",
        "Write { at the end of the line.".to_owned(),
    );
    Some(with_mend(found, head_end..head_end, " {".to_owned()))
}
