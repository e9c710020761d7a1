import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { tm517 } from '../../src/core/receiver/designs/tm-517.ts';
import { judged } from '../../src/rehearsal/judgement.ts';
import { seedOf, setAsFound } from '../../src/rehearsal/practice.ts';
import {
	answerPreparation,
	answerTriage,
	journalOf,
	openBrowser,
	passGates,
	type RunningProgram,
	scratchFolder,
	startProgram,
} from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

/** Stands for a tone that is too weak to be read, dBV. */
const weakest = -80;

/** A person at the virtual bench, who reads the page and presses its keys. */
class Hand {
	readonly page: Page;
	constructor(page: Page) {
		this.page = page;
	}

	async coach(): Promise<string> {
		return (await this.page.locator('.coach').first().textContent()) ?? '';
	}

	/** Lets a time pass; the page's own clock is moved on, so that nobody waits for it. */
	wait(seconds: number): Promise<void> {
		return this.page.clock.runFor(1000 * seconds);
	}

	/** What the meter reads, once it has been read three times since the turn; `null` when the tone is too weak. */
	async look(): Promise<number | null> {
		await this.wait(0.3);
		const level = this.page.locator('.reads .level');
		const words = (await level.count()) > 0 ? await level.textContent() : null;
		return words === null ? null : Number(words.replace('\u2212', '-').split(' ')[0]);
	}

	/** Whether the reading settles while the hand is off. */
	async settles(): Promise<boolean> {
		for (let k = 0; k < 10; k++) {
			await this.wait(1);
			if (await this.page.getByText(/^Settled/).isVisible()) return true;
		}
		return false;
	}

	press(name: string | RegExp): Promise<void> {
		return this.page
			.getByRole('button', { name, exact: typeof name === 'string' })
			.first()
			.click();
	}

	/** As weak as will serve: about a tenth of a volt at the voice coil. */
	async setLevel(): Promise<void> {
		for (let step = 0; step < 30; step++) {
			const level = await this.look();
			if (level === null || level < -40) await this.press('+ 20 dB');
			else if (level < -24) await this.press('+ 6 dB');
			else if (level > -8) await this.press('\u2212 6 dB');
			else return;
		}
	}

	async turn(sixtyFourths: number): Promise<void> {
		const eighths = Math.trunc(sixtyFourths / 8);
		for (let k = 0; k < Math.abs(eighths); k++) await this.page.keyboard.press(eighths > 0 ? 'PageUp' : 'PageDown');
		const rest = sixtyFourths - 8 * eighths;
		for (let k = 0; k < Math.abs(rest); k++) await this.page.keyboard.press(rest > 0 ? 'ArrowRight' : 'ArrowLeft');
	}

	/** Walks one way until the reading is clearly off the best, noting place and level. */
	async #walk(step: number, sign: 1 | -1, looks: Map<number, number>, from: number): Promise<number> {
		let at = from;
		for (let k = 0; k < 24; k++) {
			await this.turn(step);
			at += step;
			const level = await this.look();
			looks.set(at, sign * (level ?? weakest));
			const best = Math.max(...looks.values());
			if (best - (looks.get(at) as number) > 1.5) break;
		}
		return at;
	}

	/** Peaks the adjuster in hand, or nulls it: across the best both ways, coarse and fine, then to the middle of the best. Turn in sixty-fourths. */
	async peak(aim: 'maximum' | 'minimum', name: string): Promise<number> {
		const sign = aim === 'maximum' ? 1 : -1;
		await this.setLevel();
		await this.press((await this.settles()) ? `Turn ${name}` : 'Without a reference');
		await this.page.getByRole('slider', { name: `${name}, screw` }).focus();
		let at = 0;
		for (const step of [6, 1]) {
			const looks = new Map<number, number>();
			const start = await this.look();
			looks.set(at, sign * (start ?? weakest));
			const before = at;
			at = await this.#walk(step, sign, looks, at);
			if (step > 1 || looks.size < 4) {
				await this.turn(before - at);
				at = await this.#walk(-step, sign, looks, before);
			}
			const best = Math.max(...looks.values());
			const top = [...looks].filter(([, level]) => best - level < 0.08).map(([place]) => place);
			const middle = Math.round((Math.min(...top) + Math.max(...top)) / 2);
			// Fine steps begin a little before the place, so that they cross it.
			const goal = step > 1 ? middle - 5 : middle;
			await this.turn(goal - at);
			at = goal;
		}
		await this.press(`${name} is set`);
		// In a null there may be too little tone for a reference.
		await this.press((await this.settles()) ? 'Count the turn' : 'Without a reference');
		const eighths = Math.round(at / 8);
		const words = eighths === 0 ? 'as it was' : `${eighths > 0 ? '+' : '\u2212'}${Math.abs(eighths)}/8`;
		await this.press(Math.abs(eighths) > 8 ? 'not counted' : words);
		return at;
	}
}

const heading = (page: Page): Promise<string> => page.getByRole('heading', { level: 1 }).textContent().then(String);

/** Works the step in hand: triage as for a sound set, each adjuster once. */
async function workStep(page: Page, hand: Hand): Promise<void> {
	const title = await heading(page);
	if (title.includes('time to align')) await answerTriage(page);
	else if (/Mark every screw|Prepare set/.test(title)) await answerPreparation(page);
	const aim = title.includes('for least') ? 'minimum' : 'maximum';
	// The number on the plan is drawn for the eye alone.
	const texts = await page
		.locator('.adjusters button')
		.evaluateAll((buttons) =>
			buttons.map(({ childNodes }) =>
				[...childNodes].map((part) => (part.nodeType === Node.TEXT_NODE ? part.textContent : '')).join(''),
			),
		);
	const names = texts.map((name) => name.replace(', turned', ''));
	for (const name of names) {
		await page.locator('.adjusters button').filter({ hasText: name }).click();
		await hand.peak(aim, name);
	}
	await hand.press('This step is done');
	await page.getByRole('button', { name: 'This step is done' }).waitFor({ state: 'detached' });
}

/**
 * From wherever the run stands to its next step begun, gates and pause included; `false` when all is done.
 * @param passes of the last step's round that were worked
 */
async function toNextStep(page: Page, passes: number): Promise<boolean> {
	for (;;) {
		await page.getByRole('heading', { level: 1 }).waitFor();
		const title = await heading(page);
		if (title === 'All steps are done') return false;
		if (await page.getByRole('button', { name: 'Go on', exact: true }).isVisible()) await passGates(page);
		else if (title === 'After the pause') {
			await page.getByRole('checkbox', { name: 'Set and generator are warm' }).check();
			await page
				.getByRole('button', { name: /^Go on/ })
				.first()
				.click({ timeout: 10_000 });
		} else if (passes > 1 && (await page.getByRole('button', { name: 'No further pass' }).isVisible())) {
			// Two passes are enough for this hand.
			await page.getByRole('button', { name: 'No further pass' }).click();
		} else if (await page.getByRole('button', { name: /^Begin (this step|the next pass)/ }).isVisible()) {
			await page.getByRole('button', { name: /^Begin (this step|the next pass)/ }).click();
		} else if (await page.getByRole('button', { name: 'This step is done' }).isVisible()) return true;
		await page.waitForTimeout(100);
	}
}

test('the whole sheet is worked on the virtual set through the page, killed in the middle, to within 1 dB of the best', {
	timeout: 600_000,
}, async () => {
	const data = scratchFolder();
	let program: RunningProgram = await startProgram(data);
	const browser = await openBrowser(scratchFolder());
	closing.push(() => program.end('SIGTERM'));
	closing.push(() => browser.close());
	const page = browser.pages()[0] ?? (await browser.newPage());
	await page.clock.install();
	const hand = new Hand(page);
	// The run's name tells how the virtual set was tampered with: the same each time.
	await page.addInitScript(() => {
		const chance = crypto.randomUUID.bind(crypto);
		let isFirst = !localStorage.getItem('begun');
		crypto.randomUUID = () => {
			if (!isFirst) return chance();
			isFirst = false;
			localStorage.setItem('begun', 'yes');
			return '00000000-0000-4000-8000-seven0000000';
		};
	});
	await page.goto(`${program.address}/#/bench/thistlemoor-tm-517`);
	await hand.press('Begin a run');
	let isKilled = false;
	let passes = 1;
	while (await toNextStep(page, passes)) {
		passes = Number(/pass (\d)/.exec(await heading(page))?.[1] ?? 1);
		await workStep(page, hand);
		if (isKilled || !(await heading(page)).includes('IF transformers')) continue;
		// After the first pass over the IF the program dies; nothing that was kept is lost.
		isKilled = true;
		await hand.wait(3);
		await page.getByText('Not yet kept:').waitFor({ state: 'detached' });
		const before = await journalOf(program.address);
		await program.end('SIGKILL');
		program = await startProgram(data, Number(new URL(program.address).port));
		await page.reload();
		await page.getByRole('button', { name: /^Run of/ }).click();
		const after = await journalOf(program.address);
		expect(after.slice(0, before.length)).toEqual(before);
		expect(before.filter(({ what }) => what.kind === 'level').length).toBeGreaterThan(100);
	}
	expect(isKilled).toBe(true);
	const [entry] = await journalOf(program.address);
	const run = entry?.run ?? '';
	const turns = await page.evaluate(
		(key) => (JSON.parse(localStorage.getItem(key) ?? '{}') as { turns: Record<string, number> }).turns,
		`virtual-set ${run}`,
	);
	expect(seedOf(run)).toBeGreaterThan(0);
	const found = setAsFound(tm517, run, null);
	const was = judged(found);
	const is = judged({ ...found, turns });
	expect(is.belowBestDb ?? 100).toBeLessThan(1);
	expect(is.worstDialErrorHz).toBeLessThan(was.worstDialErrorHz);
});
