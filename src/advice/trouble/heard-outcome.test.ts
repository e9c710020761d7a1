import { expect, test } from 'vitest';
import type { Heard } from '#core/signal/listener.ts';
import { heardOutcome } from './heard-outcome.ts';
import { outcomeOf } from './ranking.ts';

const quiet: Heard = {
	kind: 'quiet',
	besideTone: null,
	levelDbfs: -58.2,
	clicksPerMinute: 0,
	beat: null,
	hum: null,
	squealHz: null,
};

test('what was heard is an outcome of the test, with its figure', () => {
	const heard: readonly Heard[] = [
		quiet,
		{ ...quiet, kind: 'tone' },
		{ ...quiet, kind: 'crackle', clicksPerMinute: 34 },
		{ ...quiet, kind: 'squeal', squealHz: 2345 },
		{ ...quiet, kind: 'putting', beat: { perS: 4, swingShare: 1 } },
		{ ...quiet, kind: 'hum', hum: { mainsHz: 60, leads: 'twice' } },
	];
	for (const one of heard) {
		const said = heardOutcome('silence', one);
		expect(outcomeOf('silence', said?.outcome ?? '').ok).toBe(true);
		expect(said?.outcome).toBe(one.kind);
	}
	expect(heardOutcome('silence', heard[2] as Heard)?.words).toBe('34 clicks a minute');
	expect(heardOutcome('hum-pitch', heard[5] as Heard)?.outcome).toBe('twice');
	expect(heardOutcome('hum-pitch', quiet)?.outcome).toBe('none');
	expect(heardOutcome('crackle-steps', heard[2] as Heard)).toEqual({ outcome: 'jumps', words: '34 clicks a minute' });
	expect(heardOutcome('crackle-steps', quiet)?.outcome).toBe('steady');
	expect(heardOutcome('since', quiet)).toBeNull();
});
