import type { TestDanger } from './trouble-test.ts';

/** What is said beside every test and finding. */
export const localCodesWords = 'Local codes and licensed practice come first.';

/** The caution of a test, worst first. */
export function dangerWords(danger: TestDanger): string {
	switch (danger) {
		case 'none':
			return 'From outside: no hand in the set.';
		case 'unplugged':
			return 'A hand goes into the set: unplug it, discharge the capacitors and prove them dead with a meter first. Nobody works alone.';
		case 'clipped':
			return 'Clip the lead with the set unplugged, discharged and proved dead; live-chassis sets only behind an isolation transformer. Then power up, hands off.';
	}
}
