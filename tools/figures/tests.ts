import { readFileSync } from 'node:fs';
import { testFindings } from '../../src/advice/tests/findings.ts';
import { usualGear } from '../../src/advice/tests/gear.ts';
import { testMarks } from '../../src/advice/tests/marks.ts';
import { tuningAtMark, valuesAt } from '../../src/core/receiver/bench-set.ts';
import { designs } from '../../src/core/receiver/designs/designs.ts';
import { testFigures } from '../../src/core/receiver/test-figures.ts';
import { tamperedSet } from '../../src/core/receiver/truth.ts';
import { setCardSchema } from '../../src/record/set-card.ts';
import { setFacts } from '../../src/record/set-facts.ts';
import { TestHand } from '../../src/rehearsal/test-hand.ts';
import { comparedFigures } from '../../test/test-truth.ts';
import type { Figure } from './figure.ts';

const sets = 200;

export const figures: readonly Figure[] = [
	{
		name: 'standard tests: figures found on the virtual set within their stated uncertainty (two standard deviations) of its circuits',
		target: 'at least 95 % of 200 sets, each kind of figure',
		how: `${sets} tampered sets (tm-517 and tm-523 by turns), every reading by a simulated hand whose generator, attenuator, meter, counter and pointer are off by chance within their limits`,
		async measure() {
			const facts = setFacts(setCardSchema.parse(JSON.parse(readFileSync('examples/thistlemoor-tm-517.json', 'utf8'))));
			if (!facts.ok) throw new Error(facts.words);
			const gear = usualGear(facts.value, 'before');
			const marks = testMarks(facts.value);
			const tally = new Map<string, { within: number; of: number }>();
			let unread = 0;
			for (let seed = 1; seed <= sets; seed++) {
				const design = designs[seed % 2 === 0 ? 'tm-517' : 'tm-523'];
				if (!design) throw new Error('no design');
				const set = tamperedSet(design, seed);
				const onBench = (dialHz: number, volume: number) => valuesAt(set, tuningAtMark(set, dialHz), volume);
				const readings = [...new TestHand(onBench, facts.value, gear, 7000 + seed).readings()];
				const findings = testFindings(facts.value, gear, readings);
				const truth = testFigures(onBench, [marks.lowHz, marks.middleHz, marks.highHz], gear.channelHz);
				for (const { kind, isWithin } of comparedFigures(findings, truth, marks)) {
					if (isWithin === null) {
						unread++;
						continue;
					}
					const count = tally.get(kind) ?? { within: 0, of: 0 };
					tally.set(kind, { within: count.within + (isWithin ? 1 : 0), of: count.of + 1 });
				}
			}
			const shares = [...tally].map(([kind, { within, of }]) => ({ kind, within, of }));
			return {
				reached: `${shares.map(({ kind, within, of }) => `${kind} ${((100 * within) / of).toFixed(1)} % of ${of}`).join('; ')}; ${unread} figures beyond the generator's most, by the hand or by the circuits, not counted`,
				met: shares.every(({ within, of }) => within / of >= 0.95),
			};
		},
	},
];
