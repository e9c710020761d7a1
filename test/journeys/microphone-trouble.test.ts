import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { waveFile } from '../wave-file.ts';
import { beginIfStep, chooseMeter, journalOf, openBrowser, scratchFolder, startProgram } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0).reverse()) await close();
});

/** A page at the IF step with an adjuster in hand, and the address of its program. */
async function bench(
	args: readonly string[],
	prepare: (page: Page) => Promise<void>,
): Promise<{ page: Page; address: string }> {
	const program = await startProgram(scratchFolder());
	closing.push(() => program.end('SIGTERM'));
	const browser = await openBrowser(scratchFolder(), args);
	closing.push(() => browser.close());
	const page = browser.pages()[0] ?? (await browser.newPage());
	await prepare(page);
	await beginIfStep(page, program.address);
	await page.getByRole('button', { name: 'T2 sec.' }).click();
	return { page, address: program.address };
}

/** A fault that the browser's sound input has in this test; the page's own code is left as it is. */
type Trouble = 'NotFoundError' | 'NotReadableError' | 'processing' | null;

/** Lets a test give the browser's sound input a fault, and take the input away. */
async function prepareTrouble(page: Page): Promise<void> {
	await page.addInitScript(() => {
		const media = navigator.mediaDevices;
		const plain = media.getUserMedia.bind(media);
		const own = globalThis as unknown as { trouble: Trouble; track?: MediaStreamTrack; context?: AudioContext };
		own.trouble = null;
		globalThis.AudioContext = class extends AudioContext {
			constructor() {
				super();
				own.context = this;
			}
		};
		media.getUserMedia = async (wanted) => {
			if (own.trouble !== null && own.trouble !== 'processing') throw new DOMException('', own.trouble);
			const stream = await plain(wanted);
			const [track] = stream.getAudioTracks();
			if (track) {
				own.track = track;
				const settings = track.getSettings();
				if (own.trouble === 'processing') track.getSettings = () => ({ ...settings, noiseSuppression: true });
			}
			return stream;
		};
	});
}
const trouble = (page: Page, kind: Trouble): Promise<void> =>
	page.evaluate((given) => {
		(globalThis as unknown as { trouble: Trouble }).trouble = given;
	}, kind);

const rateHz = 48_000;
const fakeInput = (samples: readonly number[]): string[] => [
	'--use-fake-ui-for-media-stream',
	'--use-fake-device-for-media-stream',
	`--use-file-for-fake-audio-capture=${waveFile([...samples], rateHz)}`,
];
/** Waits for the sentence that a person is given. */
const said = (page: Page, words: string): Promise<void> =>
	page.getByRole('alert').filter({ hasText: words }).waitFor({ timeout: 15_000 });

test('a microphone that is refused is said so, and readings can be typed', async () => {
	const { page, address } = await bench(
		['--use-fake-device-for-media-stream', '--deny-permission-prompts'],
		async () => {},
	);
	await chooseMeter(page, 'sound input');
	await said(page, 'The browser does not let this page hear: allow the microphone');
	// What the virtual set gave before is neither shown as typed nor struck as such.
	expect(await page.locator('.value').textContent()).toMatch(/^\u2013/);
	expect(await page.getByRole('button', { name: 'strike' }).count()).toBe(0);
	await page.getByRole('textbox', { name: 'Reading' }).fill('1.0 V');
	await page.keyboard.press('Enter');
	await expect.poll(async () => JSON.stringify(await journalOf(address))).toContain('"1.0 V"');
});

test('no input, one that is held by another program, and one that the browser changes: each is said in its own words', async () => {
	const { page } = await bench(fakeInput(new Array(rateHz).fill(0)), prepareTrouble);
	for (const [kind, words] of [
		['NotFoundError', 'There is no sound input: plug in a microphone'],
		['NotReadableError', 'Another program holds the sound input: close it'],
		['processing', 'The browser changes the sound (noiseSuppression)'],
	] as const) {
		await trouble(page, kind);
		await chooseMeter(page, 'sound input');
		await said(page, words);
	}
	// A silent input is no level: nothing is taken for a reading.
	await trouble(page, null);
	await page.getByRole('button', { name: 'Try again' }).click();
	await expect.poll(() => page.locator('.coach').textContent(), { timeout: 10_000 }).toContain('No tone is heard');
});

test('an input that is unplugged in the middle, with a word from the browser or without, or that stalls, is said so; what was read is kept', async () => {
	const tone = Array.from({ length: rateHz / 2 }, (_, index) => 0.1 * Math.sin((2 * Math.PI * 400 * index) / rateHz));
	const { page, address } = await bench(fakeInput(tone), prepareTrouble);
	const read = async () =>
		(await journalOf(address)).filter(({ what }) => what.kind === 'level' && what.reading.trust === 'ok').length;
	for (const end of ['told', 'untold', 'stalled'] as const) {
		const before = await read();
		await chooseMeter(page, 'sound input');
		await expect.poll(read, { timeout: 15_000 }).toBeGreaterThan(before + 5);
		await page.evaluate(async (how) => {
			const { track, context } = globalThis as unknown as { track: MediaStreamTrack; context: AudioContext };
			if (how === 'stalled') await context.suspend();
			else track.stop();
			if (how === 'told') track.dispatchEvent(new Event('ended'));
		}, end);
		await said(page, 'The sound input is gone: plug it in again');
		expect(await page.getByRole('combobox', { name: 'Meter' }).inputValue()).toBe('typed');
	}
});
