import { expect, test } from 'vitest';
import { type PaperBench, paperBench } from '../../test/paper-bench.ts';
import { keptFor } from './adjuster-flow.ts';
import { nextStep } from './next-step.ts';

/** Works a step with one adjuster that gains so much. */
async function work({ bench, step, live }: PaperBench, id: string, adjuster: string, gainDb: number): Promise<void> {
	await bench.beginStep(step(id));
	await live(id, adjuster, -20, 10, keptFor('reference before'));
	await live(id, adjuster, -20 + gainDb, 10, keptFor('reference after'));
	await bench.countTurn(step(id), adjuster, 1);
	await bench.finishStep(step(id), {});
}
const proposed = ({ sheet, bench }: PaperBench) => nextStep(sheet, bench.state);

async function upTo(paper: PaperBench, id: string): Promise<void> {
	for (const step of paper.sheet.steps) {
		if (step.id === id) return;
		await paper.bench.finishStep(step, {});
		if (step.repeat.length > 0) await paper.bench.leaveRepeat(step.id);
	}
}

test('the IF is proposed again until a pass gains less than the meter can tell', async () => {
	const paper = await paperBench();
	await upTo(paper, 'if');
	expect(proposed(paper).step?.id).toBe('if');
	for (const gainDb of [4, 0.6]) {
		await work(paper, 'if', 'if2', gainDb);
		expect(proposed(paper).step?.id).toBe('if');
		expect(proposed(paper).passed?.gainDb?.value).toBeCloseTo(gainDb, 1);
	}
	await work(paper, 'if', 'if2', 0.03);
	expect(proposed(paper).step?.id).not.toBe('if');
	expect(proposed(paper).passed).toMatchObject({
		pass: 3,
		words: 'Pass 3 gained less than the meter can tell (0.1 dB).',
	});
});

test('both ends of a band are gone through in the order of the sheet, whole rounds at a time', async () => {
	const paper = await paperBench();
	const last = paper.sheet.steps.find(({ repeat }) => repeat.length > 1);
	if (!last) throw new Error('no step with several repeats');
	await upTo(paper, last.id);
	await work(paper, last.id, 'ant', 3);
	const order: string[] = [];
	for (let count = 0; count < last.repeat.length; count++) {
		const next = proposed(paper).step;
		order.push(next?.id ?? '');
		// The first of the round gains, so that another round is due.
		await work(paper, next?.id ?? '', 'ant', count === 0 ? 1 : 0);
	}
	expect(order).toEqual(last.repeat);
	expect(proposed(paper).passed).toMatchObject({ step: last.id, pass: 2 });
	expect(proposed(paper).step?.id).toBe(last.repeat[0]);
	await paper.bench.leaveRepeat(last.id);
	expect(proposed(paper).step?.id).not.toBe(last.repeat[0]);
});

test('a pass without readings is not proposed again, and says that it is not known', async () => {
	const paper = await paperBench();
	await upTo(paper, 'if');
	await paper.bench.finishStep(paper.step('if'), {});
	expect(proposed(paper).step?.id).not.toBe('if');
	expect(proposed(paper).passed?.words).toContain('not known');
});
