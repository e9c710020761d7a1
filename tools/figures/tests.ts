import { testFindings } from '../../src/advice/tests/findings.ts';
import { usualGear } from '../../src/advice/tests/gear.ts';
import { testMarks } from '../../src/advice/tests/marks.ts';
import { proofOf } from '../../src/advice/tests/proof.ts';
import { tuningAtMark, valuesAt } from '../../src/core/receiver/bench-set.ts';
import { designs } from '../../src/core/receiver/designs/designs.ts';
import { testFigures } from '../../src/core/receiver/test-figures.ts';
import { tamperedSet } from '../../src/core/receiver/truth.ts';
import { type SetOnBench, TestHand } from '../../src/rehearsal/test-hand.ts';
import { exampleCard, factsOf } from '../../test/example-set.ts';
import { comparedFigures } from '../../test/test-truth.ts';
import { atLeast, atMost, type Figure, worst } from './figure.ts';

const sets = 200;
const unchangedSets = 60;

/** A tampered set, the two designs by turns. */
function tamperedBench(seed: number): SetOnBench {
	const design = designs[seed % 2 === 0 ? 'tm-517' : 'tm-523'];
	if (!design) throw new Error('no design');
	const set = tamperedSet(design, seed);
	return (dialHz, volume) => valuesAt(set, tuningAtMark(set, dialHz), volume);
}

export const figures: readonly Figure[] = [
	{
		name: 'standard tests: figures found on the virtual set within their stated uncertainty (two standard deviations) of its circuits',
		target: 'at least 95 % of 200 sets, each kind of figure',
		by: 'count',
		how: `${sets} tampered sets (tm-517 and tm-523 by turns), every reading by a simulated hand whose generator, attenuator, meter, counter and pointer are off by chance within their limits`,
		async measure() {
			const facts = factsOf(exampleCard());
			const gear = usualGear(facts, 'before');
			const marks = testMarks(facts);
			const tally = new Map<string, { within: number; of: number }>();
			let unread = 0;
			for (let seed = 1; seed <= sets; seed++) {
				const onBench = tamperedBench(seed);
				const readings = [...new TestHand(onBench, facts, gear, 7000 + seed).readings()];
				const findings = testFindings(facts, gear, readings);
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
				used: worst(...shares.map(({ within, of }) => atLeast(within / of, 0.95))),
			};
		},
	},
	{
		name: 'standard tests: figures told as changed where nothing was changed',
		target: 'at most 5 %',
		by: 'count',
		how: `${unchangedSets} tampered sets (tm-517 and tm-523 by turns), all tests read twice with the same gear, pointer and every reading anew`,
		async measure() {
			const facts = factsOf(exampleCard());
			let told = 0;
			let of = 0;
			for (let seed = 1; seed <= unchangedSets; seed++) {
				const onBench = tamperedBench(seed);
				const gear = (['before', 'after'] as const).map((moment) => usualGear(facts, moment));
				const readings = gear.flatMap((own) => [...new TestHand(onBench, facts, own, 9000 + seed).readings()]);
				const { differences } = proofOf(facts, gear, readings);
				of += differences.length;
				told += differences.filter(
					({ standing }) => standing === 'better' || standing === 'worse' || standing === 'changed',
				).length;
			}
			return { reached: `${told} of ${of}, ${((100 * told) / of).toFixed(1)} %`, used: atMost(told / of, 0.05) };
		},
	},
];
