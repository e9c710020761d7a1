import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { type CauseId, causes } from '../../src/advice/trouble/causes.ts';
import { outcomeShares, priorOf } from '../../src/advice/trouble/ranking.ts';
import { type TestId, tests } from '../../src/advice/trouble/tests.ts';
import { type TroubleId, troubles } from '../../src/advice/trouble/troubles.ts';
import { openPage } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

const ids = Object.keys(troubles) as TroubleId[];
/** Answers after which a person would have given up. */
const mostAnswers = 12;

/** The cause that a person is given to answer by: the likeliest of the trouble. */
function likeliest(trouble: TroubleId): CauseId {
	const { ids: all, shares } = priorOf(trouble);
	return all[shares.indexOf(Math.max(...shares))] as CauseId;
}

/** What the tapped answers were, or `null` where the page asks for nothing more. */
async function answerAs(page: Page, cause: CauseId): Promise<TestId | null> {
	const asked = page.locator('section > .words');
	if ((await asked.count()) === 0) return null;
	const words = await asked.textContent();
	const id = (Object.keys(tests) as TestId[]).find((one) => tests[one].words === words) as TestId;
	const shares = outcomeShares(tests[id], cause);
	const before = await page.locator('.answered').count();
	await page
		.locator('.outcomes button')
		.nth(shares.indexOf(Math.max(...shares)))
		.click();
	await page.waitForFunction((count) => document.querySelectorAll('.answered').length > count, before);
	return id;
}

test('every trouble is reached by two acts and gone through, answer by answer, to what lies behind it', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	const lost: string[] = [];
	for (const trouble of ids) {
		await page.goto(`${program.address}/#/`);
		await page.getByRole('link', { name: 'Trouble', exact: true }).click();
		await page.getByRole('link', { name: troubles[trouble].words, exact: true }).click();
		await page.getByRole('heading', { level: 1, name: troubles[trouble].words }).waitFor();
		const cause = likeliest(trouble);
		const taken: TestId[] = [];
		for (let count = 0; count < mostAnswers; count++) {
			const id = await answerAs(page, cause);
			if (id === null) break;
			taken.push(id);
		}
		expect(taken.length, trouble).toBeGreaterThan(0);
		expect(new Set(taken).size, `${trouble}: a test was asked twice`).toBe(taken.length);
		const [first] = await page.locator('.cause strong').allTextContents();
		if (first !== causes[cause].words) lost.push(`${trouble}: ${cause}, found ${first}`);
		else {
			// What to do about it, or why to stop.
			const { remedy } = causes[cause];
			const isTold = await page.getByText(remedy[0] as string, { exact: true }).count();
			const isStopped = await page.getByText('Stop here.').count();
			const isOpen = await page.getByText('No test from here tells enough').count();
			expect(isTold + isStopped + isOpen, trouble).toBeGreaterThan(0);
		}
	}
	expect(lost).toEqual([]);
	expect(faults).toEqual([]);
}, 180_000);
