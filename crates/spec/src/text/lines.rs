//! Lines and columns of byte offsets.

/// An index of a text's lines, made once per text.
///
/// Lines end at LF, CR LF or CR, as editors count them; the rarer line ends of KDL are part of their line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lines {
    /// The byte offset of the start of each line; the first is 0.
    starts: Vec<u32>,
    /// The length of the text in bytes.
    length: u32,
}

impl Lines {
    /// Indexes a text.
    pub fn new(text: &str) -> Self {
        let bytes = text.as_bytes();
        let mut starts = vec![0];
        for (offset, byte) in bytes.iter().enumerate() {
            let ends_line = match byte {
                b'\n' => true,
                b'\r' => bytes.get(offset + 1) != Some(&b'\n'),
                _ => false,
            };
            if ends_line {
                starts.push(saturate(offset + 1));
            }
        }
        Self { starts, length: saturate(bytes.len()) }
    }

    /// The number of lines; a text that ends with a line end has an empty last line.
    pub fn count(&self) -> usize {
        self.starts.len()
    }

    /// The line, from 1, that holds a byte offset; offsets behind the end belong to the last line.
    pub fn line(&self, offset: u32) -> u32 {
        saturate(self.starts.partition_point(|start| *start <= offset))
    }

    /// The byte offset at which a line, from 1, starts.
    pub fn start(&self, line: u32) -> Option<u32> {
        let index = usize::try_from(line).ok()?.checked_sub(1)?;
        self.starts.get(index).copied()
    }

    /// The bytes of a line, from 1, without its line end.
    pub fn bytes(&self, text: &str, line: u32) -> Option<std::ops::Range<u32>> {
        let start = self.start(line)?;
        let next = self.start(line.checked_add(1)?).unwrap_or(self.length);
        let written = text.get(start as usize..next as usize)?;
        let trimmed = written.trim_end_matches(['\n', '\r']);
        Some(start..start + saturate(trimmed.len()))
    }

    /// The line and the column in characters, both from 1, of a byte offset in the text that the index was made of.
    ///
    /// An offset behind the end counts as the end; one within a character as the character's start.
    pub fn line_and_column(&self, text: &str, offset: u32) -> (u32, u32) {
        let offset = offset.min(self.length);
        let line = self.line(offset);
        let start = self.start(line).unwrap_or(0) as usize;
        let end = text.floor_char_boundary(offset as usize);
        let before = text.get(start..end).unwrap_or_default();
        (line, saturate(before.chars().count() + 1))
    }

    /// The byte offset of a line and a column in characters, both from 1.
    ///
    /// None if there is no such line. A column behind the line's end counts as its end.
    pub fn offset(&self, text: &str, line: u32, column: u32) -> Option<u32> {
        let bytes = self.bytes(text, line)?;
        let written = text.get(bytes.start as usize..bytes.end as usize)?;
        let wanted = (column as usize).checked_sub(1)?;
        let within = written.char_indices().nth(wanted).map_or(written.len(), |(index, _)| index);
        Some(bytes.start + saturate(within))
    }
}

/// Texts are bounded far below four gigabytes before they are indexed; beyond it the index stays at its last offset.
fn saturate(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}
