import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { needleDegrees } from '../../src/draw/needle.ts';
import { ngspice } from '../ngspice.ts';
import { tonePeak } from '../tone-peak.ts';
import { waveFile } from '../wave-file.ts';
import { beginIfStep, chooseMeter, journalOf, openBrowser, scratchFolder, startProgram } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

const rateHz = 48_000;
const frameSamples = rateHz / 10;
const toneHz = 400;

/**
 * What a diode detector gives when a carrier, 400 c at 30 %, is swept through a tuned circuit within eight seconds: ngspice's own samples.
 * The carrier is near 20 kc only, with 12 points a cycle, to keep the run short: the audio has the tone and the resonance curve all the same,
 * and what the simulator's coarse steps do to them is in the file for both measurements.
 */
function sweptAudio(): number[] {
	const rows = ngspice(`AM carrier swept through a tuned circuit, diode detector
.param f0=20k q=15 l=10m w0={2*3.14159265358979*f0} span=2000 first=18600 sweep=8
Bin 0 tank I=(1/({q}*{w0}*{l}))*(1+0.3*sin(6.283185307179586*${toneHz}*time))*sin(6.283185307179586*({first}*time+{span}/(2*{sweep})*time*time))
Lt tank 0 {l}
Ct tank 0 {1/(l*w0*w0)}
Rt tank 0 {q*w0*l}
Ebuffer b 0 tank 0 1
Rs b a 1k
D1 a det detector
.model detector D(is=1e-8 n=1.2)
Rd det 0 47k
Cd det 0 2.2n
Cc det out 100n
Ro out 0 220k
.tran ${1 / rateHz} 8 0 4u
.save v(out)
.control
set wr_singlescale
run
linearize v(out)
wrdata OUT v(out)
.endc
.end
`);
	return rows.map(([, volts]) => volts as number);
}

/** Level of the tone in decibels of a full-scale sine, by the plain sums of Fourier: the frame has a whole number of cycles. */
function fourierDb(samples: readonly number[], start: number): number {
	const frame = samples.slice(start, start + frameSamples);
	return 20 * Math.log10(tonePeak(frame, (toneHz * frameSamples) / rateHz) + 1e-9);
}

/** What stands on the page at one moment: what the needle and its words say. */
interface Glance {
	readonly level: string;
	readonly best: string;
	readonly pointer: string;
	readonly coach: string;
	/** The reading is not trusted, as where a frame is cut by silence: the pointer stays where it was. */
	readonly isHeld: boolean;
}

/** Looks at the page at each of its own pictures. */
async function watch(page: Page): Promise<void> {
	await page.evaluate(() => {
		const seen: unknown[] = [];
		(globalThis as unknown as { seen: unknown[] }).seen = seen;
		const look = (): void => {
			const text = (selector: string): string => document.querySelector(selector)?.textContent ?? '';
			seen.push({
				level: text('.level'),
				best: /The best (.*\d)/.exec(text('.reads'))?.[1] ?? '',
				pointer: document.querySelector('.pointer')?.getAttribute('d') ?? '',
				coach: text('.coach'),
				isHeld: document.querySelector('svg.frozen') !== null,
			});
			requestAnimationFrame(look);
		};
		requestAnimationFrame(look);
	});
}

const number = (words: string): number => Number.parseFloat(words.replace('\u2212', '-'));

/** Decibels below the best at which a pointer stands, read off the scale. */
function pointedDb(path: string): number {
	const [x1, y1, x2, y2] = (path.match(/-?[\d.]+/g) ?? []).map(Number) as [number, number, number, number];
	const degrees = (Math.atan2(x2 - x1, y1 - y2) * 180) / Math.PI;
	let [low, high] = [-1, 20];
	for (let round = 0; round < 40; round++) {
		const middle = (low + high) / 2;
		if (needleDegrees(middle) > degrees) low = middle;
		else high = middle;
	}
	return (low + high) / 2;
}

/** The offset at which the frames of the page and those of the file agree best, in samples from the file's beginning. */
function bestOffset(samples: readonly number[], levelsDb: readonly (number | null)[]): number {
	let best = { offset: 0, square: Number.POSITIVE_INFINITY };
	const square = (offset: number): number =>
		levelsDb.reduce<number>((sum, level, frame) => {
			if (level === null) return sum;
			return sum + (level - fourierDb(samples, offset + frame * frameSamples)) ** 2;
		}, 0);
	const search = (from: number, to: number, step: number): void => {
		for (let offset = from; offset <= to; offset += step) {
			const found = square(offset);
			if (found < best.square) best = { offset, square: found };
		}
	};
	search(0, samples.length - levelsDb.length * frameSamples, frameSamples / 4);
	search(best.offset - frameSamples / 4, best.offset + frameSamples / 4, 48);
	return best.offset;
}

test('a peak that a circuit simulator swept through is shown within a tenth of a decibel, frame by frame, and told after it and not before', async () => {
	const audio = sweptAudio();
	expect(audio.length).toBeGreaterThan(7.9 * rateHz);
	const loudest = audio.reduce((most, volts) => Math.max(most, Math.abs(volts)), 0);
	const silence = (seconds: number): number[] => new Array<number>(seconds * rateHz).fill(0);
	// The microphone starts anywhere: a burst of the tone says where, before the sweep and apart from it; too weak and short to be a best.
	const burst = Array.from({ length: 0.35 * rateHz }, (_, at) => 0.05 * Math.sin((2 * Math.PI * toneHz * at) / rateHz));
	const samples = [
		...silence(2),
		...burst,
		...silence(1),
		...audio.map((volts) => (0.6 * volts) / loudest),
		...silence(2),
	];

	const program = await startProgram(scratchFolder());
	closing.push(() => program.end('SIGTERM'));
	const browser = await openBrowser(scratchFolder(), [
		'--use-fake-ui-for-media-stream',
		'--use-fake-device-for-media-stream',
		`--use-file-for-fake-audio-capture=${waveFile(samples, rateHz)}%noloop`,
	]);
	closing.push(() => browser.close());
	const page = browser.pages()[0] ?? (await browser.newPage());
	await beginIfStep(page, program.address);
	await chooseMeter(page, 'typed');
	await page.getByRole('button', { name: 'T2 sec.' }).click();
	await page.getByRole('button', { name: 'Without a reference' }).click();
	await page.getByText('By ear, needle, view').click();
	await page.getByRole('combobox', { name: 'Needle' }).selectOption('undamped');
	await watch(page);
	await chooseMeter(page, 'sound input');

	const readings = async () =>
		(await journalOf(program.address)).flatMap(({ what }) => (what.kind === 'level' ? [what.reading] : []));
	await expect.poll(async () => (await readings()).length, { timeout: 40_000 }).toBeGreaterThan(130);
	const seen = (await page.evaluate(() => (globalThis as unknown as { seen: unknown[] }).seen)) as Glance[];
	const heard = (await readings()).map(({ trust, levelDb }) => ({
		level: trust === 'ok' && levelDb ? levelDb.value : null,
		isHeld: trust === 'held',
	}));

	// The sweep's frames: the longest stretch of readings. One that the page held, as where the browser had no time for ten milliseconds of sound, does not end it.
	const stretches: { readonly first: number; readonly levels: (number | null)[] }[] = [];
	for (const [at, { level, isHeld }] of heard.entries()) {
		const own = stretches.at(-1);
		const isNext = own !== undefined && own.first + own.levels.length === at;
		if (isNext && (level !== null || isHeld)) own.levels.push(level);
		else if (level !== null) stretches.push({ first: at, levels: [level] });
	}
	const longest = stretches.reduce((most, own) => (own.levels.length > most.levels.length ? own : most));
	while (longest.levels.at(-1) === null) longest.levels.pop();
	// The frames at its two ends may hold some of the silence, and are left out.
	const sweep = longest.levels.slice(1, -1);
	expect(sweep.length).toBeGreaterThan(70);
	expect(sweep.filter((level) => level === null).length).toBeLessThanOrEqual(2);
	const offset = bestOffset(samples, sweep);
	const computed = sweep.map((level, frame) =>
		level === null ? Number.NEGATIVE_INFINITY : fourierDb(samples, offset + frame * frameSamples),
	);
	const worst = Math.max(
		...sweep.map((level, frame) => (level === null ? 0 : Math.abs(level - (computed[frame] as number)))),
	);
	expect(worst).toBeLessThan(0.1);

	// The burst: a frame that lies wholly within it reads a twentieth of full scale, by definition -26.02 dB, and stands where the file has it.
	const first = longest.first + 1;
	const inBurst = Math.ceil((2 * rateHz - offset) / frameSamples) + 1;
	expect(Math.abs((heard[first + inBurst]?.level ?? Number.NaN) - 20 * Math.log10(0.05))).toBeLessThan(0.1);

	// What the page showed: each level in its turn, and the pointer at it. A picture of the page may come between a reading, its mark and its pointer.
	const shown = seen.filter(({ level, best }, at) => level !== '' && best !== '' && seen[at + 1]?.level === level);
	const levelsShown = shown.map(({ level }) => number(level)).filter((level, at, all) => level !== all[at - 1]);
	const missed = sweep.filter((level) => level !== null && !levelsShown.some((own) => Math.abs(own - level) <= 0.0051));
	expect(missed.length).toBeLessThanOrEqual(3);
	const isSame = (one: Glance, other: Glance | undefined): boolean =>
		one.level === other?.level && one.best === other.best;
	const pointed = shown.filter((glance, at) => isSame(glance, shown[at - 1]) && isSame(glance, shown[at - 2]));
	expect(pointed.length).toBeGreaterThan(60);
	for (const { level, best, pointer } of pointed.filter((glance) => glance.pointer !== '' && !glance.isHeld)) {
		const belowBestDb = number(best) - number(level);
		if (belowBestDb < 19 && belowBestDb > -0.9) {
			expect(Math.abs(pointedDb(pointer) - belowBestDb), `${level}, best ${best}`).toBeLessThan(0.1);
		}
	}

	// The coach: "past" for the first time after the highest frame, and before the level has fallen by a decibel.
	const peak = computed.indexOf(Math.max(...computed));
	const peakAt = shown.findIndex(({ level }) => Math.abs(number(level) - (sweep[peak] as number)) <= 0.0051);
	const toldAt = shown.findIndex(({ coach }) => coach.startsWith('Falling'));
	expect(peakAt).toBeGreaterThan(0);
	expect(toldAt).toBeGreaterThan(peakAt);
	const fallDb = (computed[peak] as number) - number(shown[toldAt]?.level ?? '');
	expect(fallDb).toBeGreaterThan(0.2);
	expect(fallDb).toBeLessThan(1);
}, 180_000);
