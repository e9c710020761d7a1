import { afterEach, expect, test } from 'vitest';
import type { Happening } from '../../src/record/run.ts';
import { axeFaults, openPage } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

test('the shelf counts practice apart, and the record tells how each run was put down', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	const set = 'thistlemoor-tm-517';
	const { card } = (await (await fetch(`${program.address}/api/sets/${set}`)).json()) as {
		card: Extract<Happening, { kind: 'started' }>['card'];
	};
	const begun = { kind: 'started', card, options: {}, meter: 'typed', generator: 'typed' } as const;
	const runs: readonly (readonly Happening[])[] = [
		[begun],
		[begun, { kind: 'ended', how: 'left' }],
		[begun, { kind: 'ended', how: 'done' }],
		[
			{ ...begun, practice: { seed: 3, faults: [] } },
			{ kind: 'ended', how: 'done' },
		],
		[
			{ ...begun, practice: { seed: 4, faults: ['tin-whisker'] } },
			{ kind: 'ended', how: 'left' },
		],
	];
	for (const [day, happenings] of runs.entries()) {
		const run = `run-${day}`;
		const entries = happenings.map((what, order) => ({
			id: `${run}-${order}`,
			run,
			order,
			atMs: day * 86_400_000,
			what,
		}));
		const answer = await fetch(`${program.address}/api/runs/${run}/entries`, {
			method: 'POST',
			headers: { 'Content-Type': 'application/json' },
			body: JSON.stringify({ entries }),
		});
		expect(answer.status).toBe(200);
	}

	await page.reload();
	await page.getByRole('link', { name: /TM-517.*3 runs, 2 practice runs/ }).waitFor();
	expect(await axeFaults(page)).toEqual([]);
	await page.goto(`${program.address}/#/record/${set}`);
	const headings = page.getByRole('heading', { level: 2, name: /^Run of/ });
	await headings.nth(4).waitFor();
	expect((await headings.allTextContents()).map((words) => /[a-z, ]+$/.exec(words.trim())?.[0].trim())).toEqual([
		'practice, left',
		'practice, finished',
		'finished',
		'left',
		'not put down',
	]);
	expect(await axeFaults(page)).toEqual([]);

	// A fault that this version does not know is told, and another set does not stand in for its own.
	await page.goto(`${program.address}/#/bench/${set}`);
	await page.getByRole('heading', { name: 'Practice on this set' }).waitFor();
	await page
		.getByRole('button', { name: /^Run of/ })
		.nth(3)
		.click();
	await page.getByText('This practice has the fault "tin-whisker"').waitFor();
	const kept = await (await fetch(`${program.address}/api/runs?set=${set}`)).json();
	expect(kept).toMatchObject({ runs: [{ run: 'run-4', entries: 2, ended: 'left' }, {}, {}, {}, {}] });
	expect(faults).toEqual([]);
});
