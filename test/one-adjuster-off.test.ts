import { expect, test } from 'vitest';
import { analyseResponse } from '#advice/response/response-answer.ts';
import type { CurvePoint } from '#core/estimate/level-noise.ts';
import type { Nudge } from '#core/estimate/nudge-fit.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { factoryTurns } from '#core/receiver/factory.ts';
import { standardTone } from '#core/receiver/signal.ts';
import { heldGeneratorLevel } from '#instruments/virtual/held-output.ts';
import { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import { proposedSweep } from '#rehearsal/guided-round.ts';

const { ifHz } = tm517;
/** As the windings of the design: from the diode back to the converter. */
const adjusters = ['if2-secondary', 'if2-primary', 'if1-secondary', 'if1-primary'] as const;

/** What each circuit is off, hertz, by its own coil and condenser. */
function windingsOffHz(set: VirtualSet): number[] {
	return set.values.windings
		.map(({ henry, farad }) => 1 / (2 * Math.PI * Math.sqrt(henry * farad)) - ifHz)
		.toReversed();
}

// Its readings are good to 0.02 dB, finer than any model of a strip: that is no misfit.
test('the one adjuster of a simulated set that is off is named by a meter finer than any model, and the others are cleared', () => {
	for (const [place, offTurns] of [0.15, -0.4, 0.4, -0.15].entries()) {
		const off = adjusters[place] as string;
		const turns = factoryTurns(tm517);
		const found = {
			design: tm517,
			faults: [],
			turns: { ...turns, [off]: (turns[off] ?? 0) + offTurns },
			pointerSlipM: 0,
		};
		const set = new VirtualSet(found, 5 + place, null);
		const read = (frequencyHz: number): CurvePoint => {
			set.place({ frequencyHz, ...standardTone, into: 'converter grid' }, 570e3);
			const level = heldGeneratorLevel(set, 0)?.levelDb;
			return { frequencyHz, levelDb: -(level?.value ?? Number.NaN), uncertaintyDb: level?.uncertainty ?? null };
		};
		const truth = windingsOffHz(set);
		const base = proposedSweep(ifHz, 'base', [], read);
		const nudges: Nudge[] = [];
		for (const name of adjusters) {
			set.turn(name, 1 / 8);
			nudges.push({ name, points: proposedSweep(ifHz, 'nudge', nudges.at(-1)?.points ?? base, read) });
		}
		const { answer } = analyseResponse({
			ifHz,
			toneHz: standardTone.toneHz,
			aim: { kind: 'on IF' },
			base,
			nudges,
			second: null,
			meterDb: null,
			generatorHz: 0,
			windingCount: 4,
		});
		expect(answer.refused).toBeUndefined();
		expect(answer.adjusters.map(({ name }) => name)).toEqual(adjusters);
		for (const [index, { foundHz, frequencyHz, direction }] of answer.adjusters.entries()) {
			expect(Math.abs(foundHz.value - ifHz - (truth[index] as number))).toBeLessThan(700);
			expect(Math.abs(frequencyHz.value - ifHz - (windingsOffHz(set)[index] as number))).toBeLessThan(500);
			expect(direction).toBe(index === place && offTurns < 0 ? 'same' : 'opposite');
		}
		const words = answer.findings.find(({ kind }) => kind === 'found off')?.words ?? '';
		expect(/before any nudge: (\S+) [\d.]+ kc (?:low|high); the other 3/.exec(words)?.[1]).toBe(off);
	}
});
