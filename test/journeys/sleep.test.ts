import { afterEach, expect, test } from 'vitest';
import { waveFile } from '../wave-file.ts';
import {
	beginIfStep,
	chooseMeter,
	journalOf,
	openBrowser,
	passGates,
	scratchFolder,
	startProgram,
} from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

const rateHz = 48_000;
const tone = Array.from({ length: rateHz / 2 }, (_, k) => 0.1 * Math.sin((2 * Math.PI * 400 * k) / rateHz));

test('after hours of sleep in the middle of hearing the run is put down whole and asks for its gates anew', async () => {
	const program = await startProgram(scratchFolder());
	closing.push(() => program.end('SIGTERM'));
	const browser = await openBrowser(scratchFolder(), [
		'--use-fake-ui-for-media-stream',
		'--use-fake-device-for-media-stream',
		`--use-file-for-fake-audio-capture=${waveFile(tone, rateHz)}`,
	]);
	closing.push(() => browser.close());
	const page = browser.pages()[0] ?? (await browser.newPage());
	await page.addInitScript(() => {
		const now = Date.now;
		Date.now = () => now() + ((globalThis as { leapMs?: number }).leapMs ?? 0);
	});
	await beginIfStep(page, program.address);
	await chooseMeter(page, 'sound input');
	await page.getByText('Listening to').waitFor();
	await page.getByRole('button', { name: 'T2 sec.' }).click();
	const levels = async (): Promise<number> =>
		(await journalOf(program.address)).filter(({ what }) => what.kind === 'level').length;
	await expect.poll(levels, { timeout: 60_000 }).toBeGreaterThan(10);

	const tools = await browser.newCDPSession(page);
	await tools.send('Page.setWebLifecycleState', { state: 'frozen' });
	await new Promise((next) => setTimeout(next, 2000));
	await tools.send('Page.setWebLifecycleState', { state: 'active' });
	await page.evaluate(() => {
		(globalThis as { leapMs?: number }).leapMs = 8 * 3_600_000;
	});
	await page.getByText('This computer slept from').waitFor({ timeout: 60_000 });
	await page.getByRole('button', { name: /^Run of/ }).click();
	await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
	await passGates(page);
	await page.getByRole('heading', { name: 'After the pause' }).waitFor();
	const kept = await journalOf(program.address);
	expect(kept.map(({ order }) => order)).toEqual(kept.map((_, place) => place));
	expect(kept.filter(({ what }) => what.kind === 'resumed')).toHaveLength(1);
}, 180_000);
