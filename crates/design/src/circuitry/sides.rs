//! The two sides of every run, settled once for all runs: what is reached from one of its ends without passing through it.
//!
//! A depth-first walk numbers the nodes so that all that lies beyond a run is one stretch of numbers. A run without which
//! its two ends would be apart is a bridge (Tarjan's low numbers tell); any other run has all of its group at both ends.
//! So each question costs no more than its answer is long, and a build of thousands of circuits is not walked for each.

use super::{End, Run};
use crate::circuitry::Terminal;
use std::ops::Range;

/// The walk's numbers.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Sides {
    /// The nodes in the order of the walk.
    order: Vec<usize>,
    /// The place of each node in that order.
    place: Vec<usize>,
    /// The stretch of each node's group.
    group: Vec<Range<usize>>,
    /// For each run that is a bridge, the stretch that lies beyond it and the end at which that begins.
    beyond: Vec<Option<(Range<usize>, End)>>,
    /// The runs at each node that lead on to a source.
    to_sources: Vec<Vec<usize>>,
}

/// A node on the way of the walk.
struct Visit {
    node: usize,
    /// The run by which the walk came.
    came: Option<usize>,
    /// The next of the runs that meet here.
    next: usize,
}

impl Sides {
    /// Settles the sides of all runs.
    pub fn of(runs: &[Run], meeting: &[Vec<usize>], sources: &[(usize, Terminal)]) -> Self {
        let mut sides = Self {
            order: Vec::with_capacity(meeting.len()),
            place: vec![usize::MAX; meeting.len()],
            group: vec![0..0; meeting.len()],
            beyond: vec![None; runs.len()],
            to_sources: vec![Vec::new(); meeting.len()],
        };
        let mut low = vec![usize::MAX; meeting.len()];
        for root in 0..meeting.len() {
            if sides.place[root] == usize::MAX {
                sides.walk(root, runs, meeting, &mut low);
            }
        }
        sides.lead_to_sources(runs, sources);
        sides
    }

    fn enter(&mut self, node: usize, low: &mut [usize]) {
        self.place[node] = self.order.len();
        low[node] = self.order.len();
        self.order.push(node);
    }

    fn walk(&mut self, root: usize, runs: &[Run], meeting: &[Vec<usize>], low: &mut [usize]) {
        let first = self.order.len();
        self.enter(root, low);
        // A list in place of recursion: a chain of circuits may be as long as the text.
        let mut open = vec![Visit { node: root, came: None, next: 0 }];
        while let Some(visit) = open.last_mut() {
            let node = visit.node;
            let Some(&run) = meeting[node].get(visit.next) else {
                let came = visit.came;
                open.pop();
                if let (Some(run), Some(before)) = (came, open.last()) {
                    low[before.node] = low[before.node].min(low[node]);
                    if low[node] > self.place[before.node] {
                        let end = if runs[run].nodes[0] == Some(node) { End::Start } else { End::Finish };
                        self.beyond[run] = Some((self.place[node]..self.order.len(), end));
                    }
                }
                continue;
            };
            visit.next += 1;
            if visit.came == Some(run) {
                continue;
            }
            let [Some(start), Some(finish)] = runs[run].nodes else { continue };
            let other = if start == node { finish } else { start };
            if self.place[other] == usize::MAX {
                self.enter(other, low);
                open.push(Visit { node: other, came: Some(run), next: 0 });
            } else {
                low[node] = low[node].min(self.place[other]);
            }
        }
        let stretch = first..self.order.len();
        for place in stretch.clone() {
            self.group[self.order[place]] = stretch.clone();
        }
    }

    /// Notes which runs lead on to a source.
    fn lead_to_sources(&mut self, runs: &[Run], sources: &[(usize, Terminal)]) {
        let mut places: Vec<usize> = sources.iter().map(|(node, _)| self.place[*node]).collect();
        places.sort_unstable();
        let count = |stretch: &Range<usize>| {
            places.partition_point(|place| *place < stretch.end)
                - places.partition_point(|place| *place < stretch.start)
        };
        for (index, run) in runs.iter().enumerate() {
            let [Some(start), Some(finish)] = run.nodes else { continue };
            let all = count(&self.group[start]);
            let (at_start, at_finish) = match &self.beyond[index] {
                Some((stretch, End::Start)) => (count(stretch), all - count(stretch)),
                Some((stretch, End::Finish)) => (all - count(stretch), count(stretch)),
                None => (all, all),
            };
            for (node, onward) in [(start, at_finish), (finish, at_start)] {
                if onward > 0 {
                    self.to_sources[node].push(index);
                }
            }
        }
    }

    /// The runs at a node that lead on to a source.
    pub fn to_sources(&self, node: usize) -> &[usize] {
        self.to_sources.get(node).map_or(&[], Vec::as_slice)
    }

    /// The two stretches of the walk that make up the side of a run's end; `node` is the node at that end.
    fn stretches(&self, run: usize, end: End, node: usize) -> [Range<usize>; 2] {
        let group = self.group.get(node).cloned().unwrap_or(0..0);
        match self.beyond.get(run) {
            Some(Some((stretch, at))) if *at == end => [stretch.clone(), 0..0],
            Some(Some((stretch, _))) => [group.start..stretch.start, stretch.end..group.end],
            _ => [group, 0..0],
        }
    }

    /// Whether a node lies on the side of a run's end.
    pub fn holds(&self, run: usize, end: End, at: usize, node: usize) -> bool {
        let place = self.place.get(node).copied().unwrap_or(usize::MAX);
        self.stretches(run, end, at).iter().any(|stretch| stretch.contains(&place))
    }

    /// The places of these nodes in the walk, in order, for [`Sides::holds_any`].
    pub fn places(&self, nodes: impl Iterator<Item = usize>) -> Vec<usize> {
        let mut places: Vec<usize> = nodes.filter_map(|node| self.place.get(node).copied()).collect();
        places.sort_unstable();
        places
    }

    /// Whether any node of these places lies on the side of a run's end.
    pub fn holds_any(&self, run: usize, end: End, at: usize, places: &[usize]) -> bool {
        self.stretches(run, end, at).iter().any(|stretch| {
            places.partition_point(|place| *place < stretch.end)
                > places.partition_point(|place| *place < stretch.start)
        })
    }

    /// Every node on the side of a run's end.
    pub fn nodes(&self, run: usize, end: End, at: usize) -> Vec<usize> {
        let stretches = self.stretches(run, end, at);
        stretches.into_iter().flat_map(|stretch| self.order.get(stretch).into_iter().flatten().copied()).collect()
    }
}
