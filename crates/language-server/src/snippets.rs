//! A part's example as a text to type over: each value is a place of its own.

use spec::text::{BlockCache, Node, read};
use std::ops::Range;

/// The example with its values as tab stops; nothing for an example that cannot be read.
pub fn snippet(example: &str) -> Option<String> {
    let document = read(example, &mut BlockCache::off());
    if !document.faults.is_empty() || document.nodes.is_empty() {
        return None;
    }
    let mut stops: Vec<Range<usize>> = Vec::new();
    let mut open: Vec<&Node> = document.nodes.iter().collect();
    while let Some(node) = open.pop() {
        open.extend(&node.children);
        stops.extend(node.entries.iter().map(|entry| {
            let (start, end) = (entry.value_at.start as usize, entry.value_at.end as usize);
            // The quotes stay: what is typed over stands between them.
            let quotes = usize::from(entry.quoted);
            start + quotes..end.saturating_sub(quotes)
        }));
    }
    stops.sort_by_key(|stop| stop.start);
    let mut snippet = String::new();
    let mut at = 0;
    for (number, stop) in stops.iter().enumerate() {
        snippet.push_str(&escaped(example.get(at..stop.start)?));
        snippet.push_str(&format!("${{{}:{}}}", number + 1, escaped(example.get(stop.clone())?)));
        at = stop.end;
    }
    snippet.push_str(&escaped(example.get(at..)?));
    snippet.push_str("$0");
    Some(snippet)
}

/// Text without what the notation of snippets reads otherwise.
fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for letter in text.chars() {
        if matches!(letter, '\\' | '$' | '}') {
            escaped.push('\\');
        }
        escaped.push(letter);
    }
    escaped
}
