//! The single-line diagram: blocks of circuits as trees from the left to the right, one row to an end of a circuit.
//!
//! A library for layered graphs orders what it draws anew for each graph, so that one more load may move everything. Here the
//! order is that of the text, a row is one grid step, and what is added only pushes down what stands below it by one row.

mod blocks;
mod draw;
mod layout;

use super::Drawing;
use crate::desk::Desk;
use crate::words::drawings as words;

/// One drawing for each block.
pub fn drawings(desk: &mut Desk<'_, '_>) -> Vec<Drawing> {
    let blocks = blocks::blocks(desk);
    blocks
        .iter()
        .enumerate()
        .map(|(number, block)| {
            let layout = layout::layout(desk, block);
            let id = format!("single-line-{}", number + 1);
            draw::drawing(desk, &layout, id, block.title.clone(), words::SINGLE_LINE_PURPOSE)
        })
        .collect()
}
