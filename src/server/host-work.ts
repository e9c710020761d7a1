import { makeSheet } from '#advice/sheet.ts';
import { usualOptions } from '#advice/sheet-options.ts';
import type { Sheet, SheetOptions, SheetStep } from '#advice/sheet-step.ts';
import { ReadingBook } from '#advice/tests/finding.ts';
import { usualGear } from '#advice/tests/gear.ts';
import { testsUnfit } from '#advice/tests/marks.ts';
import { standardTests } from '#advice/tests/procedures.ts';
import type { Bench } from '#bench/bench.ts';
import { readDial } from '#bench/dial-run.ts';
import { contactOf, gateBeforeContact } from '#bench/gate-order.ts';
import { sweepWithNudges } from '#bench/nudge-run.ts';
import type { Left } from '#bench/sweep-hand.ts';
import { drivenTests, readTests } from '#bench/test-run.ts';
import type { WorkGround } from '#bench/work-ground.ts';
import { countedWords } from '#record/counted-words.ts';
import type { Parsed } from '#record/parsed.ts';
import { type SetFacts, setFacts } from '#record/set-facts.ts';
import type { HostPlan } from '#wire/host-messages.ts';

/** Work that can be begun on a run. */
export interface HostWork {
	/** What the generator's lead is clipped to. */
	readonly lead: 'antenna' | 'converter grid';
	/** Does it; the words say what came of it. */
	readonly work: (
		ground: WorkGround,
		bench: Bench,
	) => Promise<{ readonly kind: 'done'; readonly words: string } | Left>;
}

const ifCurve = { spanHz: 50e3, points: 61, levelV: 1e-3 } as const;
const no = (words: string): Parsed<never> => ({ ok: false, words });

/** Work of which the generator's contact is passed by the gates of its run. */
function gated(contact: string, bench: Bench, facts: SetFacts, work: HostWork): Parsed<HostWork> {
	const gate = gateBeforeContact(contact, bench.state, facts);
	return gate
		? no(`first "${gate.title}" has to be answered for ${contact}: nothing was begun`)
		: { ok: true, value: work };
}

function curveWork(plan: Extract<HostPlan, { kind: 'IF curve' }>, step: SheetStep, facts: SetFacts): HostWork {
	const centreHz = facts.ifHz ?? 0;
	const adjusters = plan.adjusters.flatMap((id) => facts.adjusters.find((one) => one.id === id) ?? []);
	const outputV = new ReadingBook([], usualGear(facts, 'before')).standardV;
	return {
		lead: 'converter grid',
		async work(ground, bench) {
			const { role } = plan;
			const end = await sweepWithNudges(ground, bench, step, { ...ifCurve, centreHz, outputV, role, adjusters });
			return end.kind === 'curves' ? { kind: 'done', words: `${countedWords(end.curves, 'curve')} in the run.` } : end;
		},
	};
}

function dialWork({ band, marksHz }: Extract<HostPlan, { kind: 'dial' }>, facts: SetFacts): HostWork {
	const outputV = new ReadingBook([], usualGear(facts, 'before')).standardV;
	return {
		lead: 'antenna',
		async work(ground, bench) {
			const end = await readDial(ground, bench, { band, marksHz, outputV });
			return end.kind === 'dial read' ? { kind: 'done', words: `${countedWords(end.marks, 'mark')} read.` } : end;
		},
	};
}

function testWork(
	{ moment, tests }: Extract<HostPlan, { kind: 'tests' }>,
	bench: Bench,
	facts: SetFacts,
): Parsed<HostWork> {
	const unfit = testsUnfit(facts);
	if (unfit !== null) return no(unfit);
	const gear = bench.state.testGear.findLast((one) => one.moment === moment);
	if (!gear) return no('say first with what the tests are read: their gear is not in the run');
	const driven = tests.filter((name) => drivenTests.some((one) => one === name));
	const [first] = standardTests(facts, gear, []).filter(({ name }) => driven.includes(name));
	if (!first) return no('these tests cannot be read by themselves');
	return gated(contactOf(first.hookUp), bench, facts, {
		lead: 'antenna',
		async work(ground, own) {
			const end = await readTests(ground, own, facts, gear, driven);
			return end.kind === 'read'
				? { kind: 'done', words: `${countedWords(end.readings, 'reading')} in the run.` }
				: end;
		},
	});
}

function sheetOf(bench: Bench, facts: SetFacts): Parsed<Sheet> {
	return makeSheet(facts, { ...usualOptions, ...(bench.state.options as Partial<SheetOptions>) });
}

/** What a plan comes to on a run, or why it cannot be begun: no such step, or a gate that is not passed. */
export function hostWork(plan: HostPlan, bench: Bench): Parsed<HostWork> {
	const { card } = bench.state;
	if (!card) return no('there is no such run: begin one first');
	const facts = setFacts(card);
	if (!facts.ok) return facts;
	if (plan.kind === 'tests') return testWork(plan, bench, facts.value);
	const sheet = sheetOf(bench, facts.value);
	if (!sheet.ok) return sheet;
	const { steps } = sheet.value;
	const step =
		plan.kind === 'dial'
			? steps.find((one) => one.band === plan.band && one.hookUp !== null && one.group === 'high end')
			: steps.find(({ id }) => id === 'if');
	if (!step || facts.value.ifHz === null) return no('the sheet of this set has no such step, or its IF is not known');
	const work = plan.kind === 'dial' ? dialWork(plan, facts.value) : curveWork(plan, step, facts.value);
	return gated(contactOf(step.hookUp), bench, facts.value, work);
}
