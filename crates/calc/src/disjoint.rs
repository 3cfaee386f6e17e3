//! Disjoint sets of nodes.

/// Sets that grow together; each entry points toward the lowest number of its set.
pub(crate) struct Sets(Vec<usize>);

impl Sets {
    /// So many numbers, each a set of its own.
    pub(crate) fn new(count: usize) -> Self {
        Self((0..count).collect())
    }

    /// The lowest number of a set; a number that is in none stands for itself.
    pub(crate) fn find(&mut self, mut one: usize) -> usize {
        while let Some(&above) = self.0.get(one) {
            if above == one {
                break;
            }
            // Takes every other step of the way out, so that long chains stay quick.
            let over = self.0.get(above).copied().unwrap_or(above);
            if let Some(entry) = self.0.get_mut(one) {
                *entry = over;
            }
            one = over;
        }
        one
    }

    /// Makes two sets one.
    pub(crate) fn join(&mut self, one: usize, other: usize) {
        let (one, other) = (self.find(one), self.find(other));
        // The lower number leads, so that the outcome does not hang on the order.
        if let Some(entry) = self.0.get_mut(one.max(other)) {
            *entry = one.min(other);
        }
    }
}
