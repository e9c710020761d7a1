import { type Heard, leastClicks } from '#core/signal/listener.ts';
import { decimalWords } from '#record/quantity-words.ts';
import type { TestId } from './tests.ts';

/** The outcome of a test that the sound of the set answers, with what was heard; `null` for other tests. */
export function heardOutcome(test: TestId, heard: Heard): { readonly outcome: string; readonly words: string } | null {
	const level = `${decimalWords(heard.levelDbfs, 0)} dBFS`;
	const clicks = `${heard.clicksPerMinute.toFixed(0)} clicks a minute`;
	switch (test) {
		case 'hum-pitch':
			return heard.hum === null
				? { outcome: 'none', words: `no mains lines, ${level}` }
				: { outcome: heard.hum.leads, words: `lines of ${heard.hum.mainsHz} c` };
		case 'crackle-steps':
			return { outcome: heard.clicksPerMinute >= leastClicks ? 'jumps' : 'steady', words: clicks };
		case 'silence':
			break;
		default:
			return null;
	}
	switch (heard.kind) {
		case 'crackle':
			return { outcome: 'crackle', words: clicks };
		case 'squeal':
			return { outcome: 'squeal', words: `at ${(heard.squealHz ?? 0).toFixed(0)} c` };
		case 'putting':
			return { outcome: 'putting', words: `${(heard.beat?.perS ?? 0).toFixed(1)} beats a second` };
		case 'hum':
			return { outcome: 'hum', words: `lines of ${heard.hum?.mainsHz ?? 0} c` };
		default:
			return { outcome: heard.kind, words: level };
	}
}
