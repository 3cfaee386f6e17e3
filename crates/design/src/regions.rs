//! The regions of a build's basis, as far as they decide which table an engineer reads.

/// A set of regions: the words of `basis`.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Regions {
    /// The United States.
    pub us: bool,
    /// The European Union and the EFTA states.
    pub eu: bool,
    /// The United Kingdom.
    pub uk: bool,
    /// Australia and New Zealand.
    pub au_nz: bool,
}

impl Regions {
    /// From the bits of the property `basis` and the words of its list.
    pub fn from_bits(bits: u64, words: &[&str]) -> Self {
        let has =
            |word: &str| words.iter().position(|known| *known == word).is_some_and(|index| bits & (1 << index) != 0);
        Self { us: has("us"), eu: has("eu"), uk: has("uk"), au_nz: has("au-nz") }
    }

    /// Whether any region outside the United States is among them, or none is named: then the wiring rules of IEC 60364
    /// and its national versions are read.
    pub fn outside_us(self) -> bool {
        self.eu || self.uk || self.au_nz || !self.us
    }

    /// The words of the regions.
    pub fn words(self) -> Vec<&'static str> {
        [(self.us, "us"), (self.eu, "eu"), (self.uk, "uk"), (self.au_nz, "au-nz")]
            .into_iter()
            .filter(|(named, _)| *named)
            .map(|(_, word)| word)
            .collect()
    }
}
