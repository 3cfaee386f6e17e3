// Counts the findings of a file by their signal word.

/** The signal words by the harm that they announce, the worst first. */
export const SIGNAL_WORDS = ['danger', 'warning', 'caution', 'notice'] as const;

export type SignalWord = (typeof SIGNAL_WORDS)[number];
/** Findings by signal word; apart from them the checks that cannot be decided yet. */
export type Counts = Record<SignalWord | 'undecided', number>;

/** What is read of a diagnostic; `data` comes from the server and may be anything. */
export interface Finding {
  severity: number;
  data?: unknown;
}

/** Counts by the signal word that the server sends along, else by the editor's severity, which has as many steps. */
export function countFindings(findings: readonly Finding[]): Counts {
  const counts: Counts = { danger: 0, warning: 0, caution: 0, notice: 0, undecided: 0 };
  for (const finding of findings) {
    const word = isUndecided(finding.data) ? 'undecided' : (signalWord(finding.data) ?? SIGNAL_WORDS[finding.severity]);
    if (word !== undefined) {
      counts[word] += howMany(finding.data);
    }
  }
  return counts;
}

function signalWord(data: unknown): SignalWord | undefined {
  if (typeof data !== 'object' || data === null || !('signal' in data)) {
    return undefined;
  }
  return SIGNAL_WORDS.find((word) => word === data.signal);
}

/** Undecided checks of one place may have been folded into one. */
function howMany(data: unknown): number {
  return typeof data === 'object' && data !== null && 'count' in data && typeof data.count === 'number' ? data.count : 1;
}

function isUndecided(data: unknown): boolean {
  return typeof data === 'object' && data !== null && 'undecided' in data && data.undecided === true;
}

/** For the status bar: "1 danger, 3 caution, 2 undecided", or that nothing was found. */
export function inWords(counts: Counts): string {
  const parts = [...SIGNAL_WORDS, 'undecided' as const].filter((word) => counts[word] > 0).map((word) => `${counts[word]} ${word}`);
  return parts.length === 0 ? 'no findings' : parts.join(', ');
}
