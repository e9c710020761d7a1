/**
 * npm run soak [-- --minutes 480 | --hours-worth 8]: the program with a page that hears a steady tone and keeps its readings, for hours,
 * or as many frames of sound as so many hours have, as fast as they are kept and no longer than the minutes.
 * Memory of program and page is sampled after a collection; at the end the last third is held against the first.
 */

import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import {
	beginIfStep,
	chooseMeter,
	journalOf,
	openBrowser,
	scratchFolder,
	startProgram,
} from '../test/journeys/open-page.ts';
import { waveFile } from '../test/wave-file.ts';
import { median } from './figures/median.ts';
import { hurrySound, isPlayed } from './keeping/hurried-sound.ts';

const { values } = parseArgs({
	options: { minutes: { type: 'string', default: '480' }, 'hours-worth': { type: 'string' } },
});
const minutes = Number(values.minutes);
const hoursWorth = values['hours-worth'] === undefined ? null : Number(values['hours-worth']);
if (!(minutes >= 2) || (hoursWorth !== null && !(hoursWorth > 0))) {
	process.stderr.write('--minutes: give 2 or more, such as 480; --hours-worth: above 0, such as 8\n');
	process.exit(2);
}
const framesAnHour = 36_000;

const rateHz = 48_000;
const tone = waveFile(
	Array.from({ length: 10 * rateHz }, (_, k) => 0.1 * Math.sin((2 * Math.PI * 400 * k) / rateHz)),
	rateHz,
);

interface Sample {
	readonly atMin: number;
	readonly programMb: number;
	readonly pageMb: number;
	readonly entries: number;
	readonly journalMb: number;
}

const megabytes = (bytes: number): number => bytes / 2 ** 20;

const data = scratchFolder();
const program = await startProgram(data);
const browser = await openBrowser(scratchFolder(), [
	'--use-fake-ui-for-media-stream',
	'--use-fake-device-for-media-stream',
	`--use-file-for-fake-audio-capture=${tone}`,
]);
const faults: string[] = [];
try {
	const page = browser.pages()[0] ?? (await browser.newPage());
	page.on('pageerror', (error) => faults.push(error.message));
	if (hoursWorth !== null) await hurrySound(page, hoursWorth * framesAnHour);
	await beginIfStep(page, program.address);
	await chooseMeter(page, 'sound input');
	await page.getByRole('button', { name: 'T2 sec.' }).click();
	await page.getByRole('button', { name: 'Without a reference' }).click();
	const tools = await browser.newCDPSession(page);

	let unanswered = 0;
	const entriesKept = async (): Promise<number> => {
		const answer = await fetch(`${program.address}/api/runs`);
		const text = await answer.text();
		if (!answer.ok) {
			process.stdout.write(`asked for its runs the program answered ${answer.status}: ${text}\n`);
			if (++unanswered > 3) throw new Error('the program did not answer four times');
			return entriesKept();
		}
		return (JSON.parse(text) as { runs: { entries: number }[] }).runs[0]?.entries ?? 0;
	};
	const sample = async (atMin: number): Promise<Sample> => {
		await tools.send('HeapProfiler.collectGarbage');
		const { usedSize } = await tools.send('Runtime.getHeapUsage');
		const resident = /VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${program.process}/status`, 'utf8'))?.[1];
		return {
			atMin,
			programMb: Number(resident) / 1024,
			pageMb: megabytes(usedSize),
			entries: await entriesKept(),
			journalMb: megabytes(statSync(join(data, 'peakwright.sqlite')).size),
		};
	};
	const samples: Sample[] = [];
	const beginMs = Date.now();
	const everyMs = hoursWorth === null ? Math.max(15_000, (minutes * 60_000) / 60) : 30_000;
	const isOver = async (): Promise<boolean> =>
		Date.now() - beginMs >= minutes * 60_000 || (hoursWorth !== null && (await isPlayed(page)));
	process.stdout.write('min  program MB  page MB  entries  journal MB\n');
	while (!(await isOver())) {
		await page.waitForTimeout(everyMs);
		const one = await sample((Date.now() - beginMs) / 60_000);
		samples.push(one);
		process.stdout.write(
			`${one.atMin.toFixed(1).padStart(5)}  ${one.programMb.toFixed(1).padStart(8)}  ${one.pageMb.toFixed(2).padStart(7)}  ${String(one.entries).padStart(7)}  ${one.journalMb.toFixed(2).padStart(8)}\n`,
		);
	}
	if (hoursWorth !== null)
		process.stdout.write(
			`${((samples.at(-1)?.entries ?? 0) / framesAnHour).toFixed(1)} hours' worth of readings in ${samples.at(-1)?.atMin.toFixed(0)} minutes\n`,
		);
	const third = Math.floor(samples.length / 3);
	for (const what of ['programMb', 'pageMb'] as const) {
		const [early, late] = [samples.slice(0, third), samples.slice(-third)].map((some) =>
			median(some.map((one) => one[what])),
		) as [number, number];
		process.stdout.write(
			`${what === 'programMb' ? 'program' : 'page'}: ${early.toFixed(1)} MB in the first third, ${late.toFixed(1)} in the last: ${(100 * (late / early - 1)).toFixed(1)} %\n`,
		);
	}
	process.stdout.write(
		`${(await journalOf(program.address)).length > 0 ? 'the journal answers' : 'the journal is empty'}; ${unanswered} questions unanswered; ${faults.length} faults of the page${faults.length > 0 ? `: ${faults.join('; ')}` : ''}\n`,
	);
} finally {
	await browser.close();
	await program.end('SIGTERM');
}
