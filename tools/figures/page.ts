import {
	beginIfStep,
	chooseMeter,
	journalOf,
	openBrowser,
	scratchFolder,
	startProgram,
} from '../../test/journeys/open-page.ts';
import { waveFile } from '../../test/wave-file.ts';
import type { Figure } from './figure.ts';

const rateHz = 48_000;
const toneHz = 400;
const seconds = 10;

/** A tone whose level is another in each frame of the meter, so that each of its readings is seen to come. */
function steppingTone(): string {
	const samples = Array.from({ length: seconds * rateHz }, (_, index) => {
		const step = Math.floor((index / rateHz) * 10);
		return 0.1 * 10 ** (-((step * 37) % 31) / 200) * Math.sin((2 * Math.PI * toneHz * index) / rateHz);
	});
	return waveFile(samples, rateHz);
}

interface Glance {
	readonly atMs: number;
	readonly level: string;
	readonly pointer: string;
}

/** Runs in the page: looks at it at each of its own pictures. As text, since the runner's compiler adds names of its own to functions. */
const recorder = `globalThis.seen = [];
(function look() {
	globalThis.seen.push({
		atMs: performance.timeOrigin + performance.now(),
		level: document.querySelector('.level')?.textContent ?? '',
		pointer: document.querySelector('.pointer')?.getAttribute('d') ?? '',
	});
	requestAnimationFrame(look);
})();`;

export const figures: readonly Figure[] = [
	{
		name: 'from the end of a sound frame to the painted needle, undamped',
		target: 'at most 50 ms',
		how: `Chromium without windows hears a file for ${seconds} s; the frame's end by the sound's own clock, paint by the browser picture after the one in which the pointer moved`,
		async measure() {
			const program = await startProgram(scratchFolder());
			const browser = await openBrowser(scratchFolder(), [
				'--use-fake-ui-for-media-stream',
				'--use-fake-device-for-media-stream',
				`--use-file-for-fake-audio-capture=${steppingTone()}`,
			]);
			try {
				const page = browser.pages()[0] ?? (await browser.newPage());
				await beginIfStep(page, program.address);
				await chooseMeter(page, 'sound input');
				await page.getByRole('button', { name: 'T2 sec.' }).click();
				await page.getByRole('button', { name: 'Without a reference' }).click();
				await page.getByText('By ear, needle, view').click();
				await page.getByRole('combobox', { name: 'Needle' }).selectOption('undamped');
				await page.evaluate(recorder);
				await page.waitForTimeout(seconds * 1000);
				const seen = (await page.evaluate(() => (globalThis as unknown as { seen: unknown[] }).seen)) as Glance[];
				const readings = (await journalOf(program.address)).flatMap(({ what }) =>
					what.kind === 'level' && what.reading.levelDb ? [what.reading] : [],
				);
				const delays = readings.flatMap(({ atMs, levelDb }) => {
					const words = levelDb?.value.toFixed(2).replace('-', '\u2212') ?? '';
					const came = seen.findIndex((glance) => glance.atMs > atMs && glance.level.startsWith(words));
					const before = seen[came - 1];
					if (came < 1 || !before) return [];
					const moved = seen.findIndex((glance, at) => at >= came && glance.pointer !== before.pointer);
					const painted = seen[moved + 1];
					// A reading that was passed over by the next one has no paint of its own.
					return moved < 0 || !painted || painted.atMs - atMs > 150 ? [] : [painted.atMs - (atMs + 50)];
				});
				const sorted = [...delays].sort((a, b) => a - b);
				const at = (share: number): number => sorted[Math.floor(share * (sorted.length - 1))] ?? Number.NaN;
				return {
					reached: `${at(0.5).toFixed(0)} ms (median), ${at(0.95).toFixed(0)} ms (95 %) of ${delays.length} readings`,
					met: at(0.5) <= 50,
				};
			} finally {
				await browser.close();
				await program.end('SIGTERM');
			}
		},
	},
];
