import type { Page } from 'playwright-core';
import { passGates } from './open-page.ts';

/** Frames of a tenth of a second between two turns: half a second, as a person looks. */
const framesLooked = 5;
const fine = 1 / 64;
const coarse = 1 / 32;
const mostSteps = 150;

/** A person who takes lessons: does what the page says, and knows nothing else. The page's clock is held, so that each look is at what the last turn gave. */
export class LessonHand {
	readonly #page: Page;
	readonly #address: string;

	constructor(page: Page, address: string) {
		this.#page = page;
		this.#address = address;
	}

	/** Begins a lesson of the list, cautions and all. */
	async begin(title: string): Promise<void> {
		await this.#page.goto(`${this.#address}/#/practice`);
		await this.#page.getByRole('link', { name: title, exact: true }).click();
		await this.#press('Begin');
		await this.#page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
		await passGates(this.#page);
		await this.#page.clock.pauseAt(Date.now() + 3_600_000);
		await this.beginStep();
	}

	/** Begins the step that the page proposes. */
	async beginStep(): Promise<void> {
		await this.#page.getByRole('button', { name: /^Begin (this step|the next pass)$/ }).click();
		await this.#page.getByRole('button', { name: /^(Go on|This step is done)$/ }).waitFor();
		await passGates(this.#page);
		await this.#page.getByRole('button', { name: 'This step is done' }).waitFor();
	}

	async finishStep(): Promise<void> {
		await this.#press('This step is done');
	}

	/** Takes an adjuster in hand and begins to turn. */
	async take(name: string): Promise<void> {
		await this.#page.locator('.adjusters button').filter({ hasText: name }).click();
		await this.#settle();
		await this.#press(`Turn ${name}`);
		await this.look();
	}

	/** Turns an adjuster to its peak, or in a null to its least, as the coach says. */
	async turnAsTold(name: string): Promise<void> {
		await this.take(name);
		let way = 1;
		let before = '';
		let step = coarse;
		for (let count = 0; count < mostSteps; count++) {
			const said = await this.#coach();
			if (said.startsWith('Back at')) break;
			if (await this.#changeLevel(said)) {
				before = '';
				continue;
			}
			if (said.includes('the other way') && !before.includes('the other way')) way = -way;
			if (said.includes('back to the')) step = fine;
			before = said;
			await this.turn(name, way * step);
		}
		await this.putDown(name);
	}

	/** Turns the adjuster in hand by the keys of its screw, and looks. */
	async turn(name: string, turns: number): Promise<void> {
		await this.#page.getByRole('slider', { name: `${name}, screw` }).focus();
		const eighths = Math.trunc(turns * 8);
		const rest = Math.round((turns - eighths / 8) * 64);
		for (let k = 0; k < Math.abs(eighths); k++) await this.#page.keyboard.press(eighths > 0 ? 'PageUp' : 'PageDown');
		for (let k = 0; k < Math.abs(rest); k++) await this.#page.keyboard.press(rest > 0 ? 'ArrowRight' : 'ArrowLeft');
		await this.look();
	}

	/** Lets go of an adjuster and counts how far it was turned in all. */
	async putDown(name: string): Promise<void> {
		const words = await this.#page.getByRole('slider', { name: `${name}, screw` }).getAttribute('aria-valuetext');
		const eighths = Math.round(Number.parseFloat((words ?? '').replace('\u2212', '-')));
		await this.#press(`${name} is set`);
		await this.#settle();
		await this.#press('Count the turn');
		const counted = eighths === 0 ? 'as it was' : `${eighths > 0 ? '+' : '\u2212'}${Math.abs(eighths)}/8`;
		await this.#press(Math.abs(eighths) > 8 ? `Count ${counted}` : counted);
	}

	/** Decibels below the best, as the page shows them. */
	async fallenDb(): Promise<number> {
		const words = await this.#page.getByText(/^Reads/).textContent();
		const [reads, best] = (words ?? '').replaceAll('\u2212', '-').match(/-?\d+\.\d+/g) ?? [];
		return Number(best) - Number(reads);
	}

	/** The reading, decibels of a volt; nothing at all where it is too weak to be read. */
	async readsDb(): Promise<number> {
		const reads = await this.#page.getByText(/^Reads/).allTextContents();
		return Number((reads[0] ?? '').replaceAll('\u2212', '-').match(/-?\d+\.\d+/)?.[0] ?? Number.NEGATIVE_INFINITY);
	}

	/** Turns an adjuster to the nearest peak by the reading alone. */
	async climb(name: string): Promise<void> {
		let best = await this.readsDb();
		for (const step of [8, 2, 1].map((count) => count * fine)) {
			for (const way of [1, -1]) {
				for (let count = 0; count < mostSteps; count++) {
					await this.turn(name, way * step);
					const now = await this.readsDb();
					if (now > best) best = now;
					else {
						await this.turn(name, -way * step);
						break;
					}
				}
			}
		}
	}

	/** Asks for the check; gives back what it says. */
	async check(): Promise<string> {
		await this.#press('Check my work');
		await this.#page.clock.runFor(100);
		const verdict = this.#page.getByRole('status').filter({ hasText: /^(Done|Not yet)\./ });
		return (await verdict.textContent()) ?? '';
	}

	/** Half a second passes, and what was read in it is kept. */
	async look(): Promise<void> {
		const before = await this.#entries();
		await this.#page.clock.runFor(100 * framesLooked);
		for (let k = 0; k < 500 && (await this.#entries()) < before + framesLooked; k++)
			await this.#page.waitForTimeout(20);
	}

	async #press(name: string): Promise<void> {
		await this.#page.getByRole('button', { name, exact: true }).click();
	}

	async #coach(): Promise<string> {
		return (await this.#page.locator('.coach').textContent()) ?? '';
	}

	/** Turns the attenuator where the page asks for it. */
	async #changeLevel(said: string): Promise<boolean> {
		const isWeak = /Too weak|No tone|make the signal stronger/.test(said);
		if (!isWeak && !(await this.#page.getByText('turn it down.').isVisible())) return false;
		await this.#press(isWeak ? '+ 6 dB' : '\u2212 6 dB');
		await this.look();
		return true;
	}

	async #settle(): Promise<void> {
		for (let count = 0; count < mostSteps; count++) {
			await this.look();
			const said = await this.#coach();
			if (!(await this.#changeLevel(said)) && said.startsWith('Settled')) return;
		}
	}

	/** Entries of the newest run that the program has kept. */
	async #entries(): Promise<number> {
		const { runs } = (await (await fetch(`${this.#address}/api/runs`)).json()) as {
			runs: { startedAtMs: number; entries: number }[];
		};
		return runs.reduce((newest, run) => (run.startedAtMs > newest.startedAtMs ? run : newest), {
			startedAtMs: 0,
			entries: 0,
		}).entries;
	}
}
