import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import type { RunEntry } from '../../src/record/run.ts';
import { waveFile } from '../wave-file.ts';
import { axeFaults, beginIfStep, chooseMeter, openBrowser, scratchFolder, startProgram } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

const rateHz = 48_000;

/** A 400-c tone of a tenth of full scale: -20 dB by definition; two hundred cycles, so that it repeats without a seam. */
const toneFile = (): string =>
	waveFile(
		Array.from({ length: rateHz / 2 }, (_, index) => 0.1 * Math.sin((2 * Math.PI * 400 * index) / rateHz)),
		rateHz,
	);

test('a tone of a known level is heard by the page, kept, and reads what it is', async () => {
	const program = await startProgram(scratchFolder());
	closing.push(() => program.end('SIGTERM'));
	const browser = await openBrowser(scratchFolder(), [
		'--use-fake-ui-for-media-stream',
		'--use-fake-device-for-media-stream',
		`--use-file-for-fake-audio-capture=${toneFile()}`,
	]);
	closing.push(() => browser.close());
	const page = browser.pages()[0] ?? (await browser.newPage());
	await beginIfStep(page, program.address);
	await chooseMeter(page, 'sound input');
	await page.getByText('Listening to').waitFor();
	await page.getByRole('button', { name: 'T2 sec.' }).click();
	await page.getByText('Settled. Press the big key').waitFor();
	// The picture of the wave is there, and the sounds that may be had keep away from the tone.
	await page.getByRole('img', { name: 'Two cycles of the tone' }).waitFor();
	await page.getByText('By ear, needle, view').click();
	await page.getByText('Clicks are at 2,200 c').waitFor();
	await page.getByRole('combobox', { name: 'Sound that follows the level' }).selectOption('clicks');
	expect(await axeFaults(page)).toEqual([]);
	// That check kept the page from listening: the level may have to settle anew before the key counts.
	const key = page.getByRole('button', { name: 'Turn T2 sec.' });
	await expect
		.poll(
			async () => {
				if ((await key.count()) === 1) await key.click();
				return key.count();
			},
			{ timeout: 15_000, interval: 500 },
		)
		.toBe(0);
	const { runs } = (await (await fetch(`${program.address}/api/runs`)).json()) as { runs: { run: string }[] };
	const readings = async () => {
		const { entries } = (await (await fetch(`${program.address}/api/runs/${runs[0]?.run}/entries`)).json()) as {
			entries: RunEntry[];
		};
		return entries.flatMap(({ what }) => (what.kind === 'level' ? [what.reading] : []));
	};
	await expect
		.poll(async () => (await readings()).filter(({ trust }) => trust === 'ok').length, { timeout: 15_000 })
		.toBeGreaterThan(20);
	const levels = (await readings()).flatMap(({ trust, levelDb }) => (trust === 'ok' && levelDb ? [levelDb.value] : []));
	const middle = [...levels].sort((a, b) => a - b)[levels.length >> 1];
	expect(Math.abs((middle as number) + 20)).toBeLessThan(0.1);
	await expect.poll(() => page.locator('.value').textContent()).toMatch(/0\.\d+ dB below the best/);

	// A known voltage at the input makes volts of full scale: a tenth of full scale for 0.2 V is 2.00 V.
	await page.getByText('Volts at the input').click();
	// It is taken from a level that stands still: a busy machine may have to be asked twice.
	await expect
		.poll(
			async () => {
				const isTaken = (await page.getByText(/Full scale is taken for (1\.99|2\.0[01]) V rms/).count()) === 1;
				if (!isTaken) {
					await page.getByRole('textbox', { name: 'Known voltage' }).fill('0.200 V');
					await page.getByRole('button', { name: 'This is it' }).click();
				}
				return isTaken;
			},
			{ timeout: 20_000, interval: 500 },
		)
		.toBe(true);
	// 20 log10(0.2) = -13.98
	await expect.poll(() => page.locator('.level').textContent()).toMatch(/\u2212(13\.9\d|14\.0\d) dBV/);
});

/** Program and page at the IF step, with or without a microphone that hears a file. */
async function pageWith(args: readonly string[]): Promise<Page> {
	const program = await startProgram(scratchFolder());
	closing.push(() => program.end('SIGTERM'));
	const browser = await openBrowser(scratchFolder(), args);
	closing.push(() => browser.close());
	const page = browser.pages()[0] ?? (await browser.newPage());
	await beginIfStep(page, program.address);
	return page;
}
const hearing = (samples: readonly number[]): readonly string[] => [
	'--use-fake-ui-for-media-stream',
	'--use-fake-device-for-media-stream',
	`--use-file-for-fake-audio-capture=${waveFile(samples, rateHz)}`,
];

test('a generator turned down by 6 dB in the middle of a turn is asked about, and levels begin anew when it was', async () => {
	const steps = Array.from({ length: 10 * rateHz }, (_, index) => {
		const share = index < 5 * rateHz ? 0.2 : 0.1;
		return share * Math.sin((2 * Math.PI * 400 * index) / rateHz);
	});
	const page = await pageWith(hearing(steps));
	await chooseMeter(page, 'sound input');
	await page.getByRole('button', { name: 'T2 sec.' }).click();
	await page.getByRole('button', { name: 'Turn T2 sec.' }).waitFor();
	await page.getByText('Settled. Press the big key').waitFor();
	await page.keyboard.press(' ');
	await page.getByText('Was the generator or a lead touched?').waitFor({ timeout: 20_000 });
	expect(await page.getByRole('alert').textContent()).toMatch(/by 6\.0 dB at once/);
	expect(await axeFaults(page)).toEqual([]);
	await page.getByRole('button', { name: 'It was: begin anew' }).click();
	await expect.poll(() => page.getByText('Was the generator or a lead touched?').count()).toBe(0);
	expect(await page.locator('.coach').textContent()).not.toContain('Falling');
});

test('a silent microphone is said in a sentence, and on a phone the needle is brought into sight', async () => {
	const silent = await pageWith(hearing(new Array<number>(rateHz).fill(0)));
	await chooseMeter(silent, 'sound input');
	await silent.getByRole('button', { name: 'T2 sec.' }).click();
	await silent.getByText('No tone is heard: is the generator on').waitFor();
	// On a phone the adjusters stand further down than the needle, and the coach's words stick to the edge: the needle is brought back.
	await silent.setViewportSize({ width: 390, height: 844 });
	await silent.getByRole('button', { name: 'Back to the step' }).click();
	await silent.getByRole('button', { name: 'T2 sec.' }).click();
	const needle = silent.getByRole('img', { name: /^Needle/ });
	await needle.waitFor();
	expect((await needle.boundingBox())?.y).toBeGreaterThan(0);
});

test('a refused microphone is said in a sentence, and the work goes on by typing', async () => {
	const refused = await pageWith(['--deny-permission-prompts']);
	await chooseMeter(refused, 'sound input');
	await expect
		.poll(() => refused.getByRole('alert').textContent())
		.toMatch(/allow the microphone|There is no sound input|cannot be opened/);
	await refused.getByRole('button', { name: 'T2 sec.' }).click();
	await refused.getByRole('textbox', { name: 'Reading' }).fill('1.0 V');
	await refused.keyboard.press('Enter');
	await refused.getByText('Turn T2 sec. slowly.').waitFor();
});
