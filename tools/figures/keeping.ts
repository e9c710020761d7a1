import { execFileSync, spawn } from 'node:child_process';
import { type AddressInfo, createServer } from 'node:net';
import { beginIfStep, chooseMeter, openBrowser, scratchFolder, startProgram } from '../../test/journeys/open-page.ts';
import { killedAgainAndAgain } from '../../test/killed-program.ts';
import { waveFile } from '../../test/wave-file.ts';
import { keepLongRun } from '../keeping/long-run.ts';
import { needleDelaysMs, stampingServer, watchNeedle } from '../keeping/needle-delay.ts';
import { allScriptsBytes, mainJobScriptsBytes } from '../keeping/page-scripts.ts';
import { clickToHeadingMs } from '../keeping/page-times.ts';
import { atLeast, atMost, type Figure, worst } from './figure.ts';
import { median } from './median.ts';

const longest = 1_000_000;
let longFolder: Promise<string> | undefined;
/** A data folder whose journal holds one run of a million readings, made once for all figures. */
function longRun(): Promise<string> {
	const folder = scratchFolder();
	longFolder ??= keepLongRun(folder, longest).then(() => folder);
	return longFolder;
}

/** Memory that a process holds, bytes. */
function residentBytes(process: number): number {
	return 1024 * Number(execFileSync('ps', ['-o', 'rss=', '-p', String(process)], { encoding: 'utf8' }));
}

async function answered(address: string): Promise<boolean> {
	return fetch(address).then(
		({ ok }) => ok,
		() => false,
	);
}

function freePort(): Promise<number> {
	return new Promise((resolve) => {
		const probe = createServer().listen(0, '127.0.0.1', () => {
			const { port } = probe.address() as AddressInfo;
			probe.close(() => resolve(port));
		});
	});
}

/** Seconds from `npm start` to the first answer. */
async function startS(data: string): Promise<number> {
	const port = await freePort();
	const from = performance.now();
	const child = spawn('npm', ['start', '--silent', '--', '--no-open', '--data', data, '--port', String(port)], {
		stdio: 'ignore',
		detached: true,
	});
	const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
	while (!(await answered(`http://127.0.0.1:${port}/`))) {
		if (performance.now() - from > 60_000) throw new Error('npm start did not answer within a minute');
		await new Promise((resolve) => setTimeout(resolve, 10));
	}
	const reachedS = (performance.now() - from) / 1000;
	// The group that was begun here: npm and the program below it.
	process.kill(-(child.pid as number), 'SIGTERM');
	await gone;
	return reachedS;
}

export const figures: readonly Figure[] = [
	{
		name: 'npm start, warm, to the first answer',
		target: 'at most 2 s',
		by: 'clock',
		how: 'median of 5 after one that makes ready, new data folder each',
		async measure() {
			const times: number[] = [];
			for (let round = 0; round < 6; round++) times.push(await startS(scratchFolder()));
			const reached = median(times.slice(1));
			return { reached: `${reached.toFixed(2)} s`, used: atMost(reached, 2) };
		},
	},
	{
		name: 'script of the page, gzip',
		target: 'at most 150 kB',
		by: 'count',
		how: 'what one alignment fetches: shelf, card, sheet, bench with the virtual set heard, record, all worklets; and every script there is, of all screens',
		async measure() {
			const bytes = await mainJobScriptsBytes();
			return {
				reached: `${(bytes / 1000).toFixed(1)} kB; ${(allScriptsBytes() / 1000).toFixed(1)} kB with every other screen`,
				used: atMost(bytes, 150_000),
			};
		},
	},
	{
		name: 'first use of the page after the server answers',
		target: 'at most 1 s',
		by: 'clock',
		how: 'from the call of the address to the first set on the shelf, median of 5 new browsers',
		async measure() {
			const program = await startProgram(scratchFolder());
			const times: number[] = [];
			try {
				for (let round = 0; round < 5; round++) {
					const browser = await openBrowser(scratchFolder());
					const page = browser.pages()[0] ?? (await browser.newPage());
					await page.goto(program.address, { waitUntil: 'commit' });
					await page.locator('main li a').first().waitFor();
					times.push(await page.evaluate(() => performance.now()));
					await browser.close();
				}
			} finally {
				await program.end('SIGTERM');
			}
			return { reached: `${(median(times) / 1000).toFixed(2)} s`, used: atMost(median(times), 1000) };
		},
	},
	{
		name: `a run of ${longest.toLocaleString('en')} readings opens`,
		target: 'at most 200 ms',
		by: 'clock',
		how: 'from the click to the painted gate, median of 7 new pages; readings of the virtual set with their references and turns',
		async measure() {
			const program = await startProgram(await longRun());
			const browser = await openBrowser(scratchFolder());
			const times: number[] = [];
			try {
				for (let round = 0; round < 7; round++) {
					const page = await browser.newPage();
					await page.goto(`${program.address}/#/bench/thistlemoor-tm-517`);
					times.push(await clickToHeadingMs(page, 'Run of', 'Before you go on'));
					await page.close();
				}
			} finally {
				await browser.close();
				await program.end('SIGTERM');
			}
			return {
				reached: `${median(times).toFixed(0)} ms (${Math.min(...times).toFixed(0)} to ${Math.max(...times).toFixed(0)})`,
				used: atMost(median(times), 200),
			};
		},
	},
	{
		name: 'memory of the server after work',
		target: 'at most 150 MB',
		by: 'clock',
		how: `resident; journal of ${longest.toLocaleString('en')} readings, its run opened 10 times, 200 pages of it read, 20,000 readings kept`,
		async measure() {
			const program = await startProgram(await longRun());
			try {
				const { address } = program;
				for (let round = 0; round < 10; round++) await (await fetch(`${address}/api/runs/long/standing`)).text();
				for (let page = 0; page < 200; page++)
					await (await fetch(`${address}/api/runs/long/entries?from=${1000 * page}`)).text();
				const { entries } = (await (await fetch(`${address}/api/runs/long/entries?from=5000`)).json()) as {
					entries: { id: string; run: string; order: number }[];
				};
				for (let batch = 0; batch < 200; batch++) {
					const more = entries.slice(0, 100).map((entry, place) => {
						const order = 100 * batch + place;
						return { ...entry, id: `m${order}`, run: 'more', order };
					});
					await fetch(`${address}/api/runs/more/entries`, {
						method: 'POST',
						headers: { 'Content-Type': 'application/json' },
						body: JSON.stringify({ entries: more }),
					});
				}
				const bytes = residentBytes(program.process);
				return { reached: `${(bytes / 1e6).toFixed(0)} MB`, used: atMost(bytes, 150e6) };
			} finally {
				await program.end('SIGTERM');
			}
		},
	},
	{
		name: 'end of a sound frame to the painted needle, undamped',
		target: 'at most 50 ms',
		by: 'clock',
		how: 'median and 95 % of the frames of 15 s of a tone that swells and fades, through a fake microphone',
		async measure() {
			const rateHz = 48_000;
			const tone = Array.from({ length: 4 * rateHz }, (_, index) => {
				const atS = index / rateHz;
				return 0.1 * (1 + 0.5 * Math.sin(2 * Math.PI * 0.5 * atS)) * Math.sin(2 * Math.PI * 400 * atS);
			});
			const program = await startProgram(scratchFolder());
			const stamping = await stampingServer(program.address);
			const browser = await openBrowser(scratchFolder(), [
				'--use-fake-ui-for-media-stream',
				'--use-fake-device-for-media-stream',
				`--use-file-for-fake-audio-capture=${waveFile(tone, rateHz)}`,
			]);
			try {
				const page = browser.pages()[0] ?? (await browser.newPage());
				await watchNeedle(page);
				await beginIfStep(page, stamping.address);
				await chooseMeter(page, 'sound input');
				await page.getByText('Listening to').waitFor();
				await page.getByRole('button', { name: 'T2 sec.' }).click();
				await page.getByText('By ear, needle, view').click();
				await page.getByRole('combobox', { name: 'Needle' }).selectOption('0');
				await page.waitForTimeout(15_000);
				const delays = await needleDelaysMs(page);
				const at = (share: number): number => delays[Math.floor(share * (delays.length - 1))] ?? Number.NaN;
				return {
					reached: `${at(0.5)} ms, 95 % within ${at(0.95)} ms, ${delays.length} frames`,
					used: worst(atLeast(delays.length, 50), atMost(at(0.5), 50)),
				};
			} finally {
				await browser.close();
				stamping.server.closeAllConnections();
				stamping.server.close();
				await program.end('SIGTERM');
			}
		},
	},
	{
		name: 'readings lost when the program is killed in the middle',
		target: 'none of those acknowledged',
		by: 'clock',
		how: '200 kills at seeded random moments, 20 readings a second',
		async measure() {
			const { acknowledged, lost, twice, outOfOrder } = await killedAgainAndAgain(200, 1);
			return {
				reached: `${lost} of ${acknowledged} lost, ${twice} kept twice, ${outOfOrder} out of order`,
				used: atMost(lost + twice + outOfOrder, 0),
			};
		},
	},
];
