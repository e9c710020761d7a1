import { createRandom } from '../src/core/numeric/random.ts';
import type { RunEntry } from '../src/record/run.ts';
import { scratchFolder, startProgram } from './journeys/open-page.ts';

/** What was found after the program had been killed again and again. */
export interface KilledResult {
	readonly kills: number;
	/** Readings that the program had said it kept. */
	readonly acknowledged: number;
	/** Of those, not in the journal. */
	readonly lost: number;
	/** In the journal more than once. */
	readonly twice: number;
	/** Places of the journal where the order of the readings is broken. */
	readonly outOfOrder: number;
}

const readingsPerSecond = 20;
const run = 'killed';

function reading(order: number): RunEntry {
	return {
		id: `r${order}`,
		run,
		order,
		atMs: order,
		what: {
			kind: 'level',
			step: 'if',
			purpose: 'live',
			reading: {
				kind: 'level',
				atMs: order,
				instrument: 'typed',
				levelDb: { value: -order / 100, uncertainty: 0.1 },
				reference: 'dBV',
				quantity: 'tone',
				trust: 'ok',
			},
		},
	};
}

async function inJournal(address: string): Promise<string[]> {
	const ids: string[] = [];
	for (let from = 0; ; ) {
		const answer = await fetch(`${address}/api/runs/${run}/entries?from=${from}`);
		const { entries } = (await answer.json()) as { entries: RunEntry[] };
		ids.push(...entries.map(({ id }) => id));
		const last = entries.at(-1);
		if (!last) return ids;
		from = last.order + 1;
	}
}

/**
 * Sends twenty readings a second, as the page's outbox does: in their order, each again until it is acknowledged;
 * and kills the program outright at random moments, half a second apart in the mean.
 */
export async function killedAgainAndAgain(kills: number, seed: number): Promise<KilledResult> {
	const { uniform } = createRandom(seed);
	const data = scratchFolder();
	const acknowledged = new Set<string>();
	let next = 0;
	for (let kill = 0; kill < kills; kill++) {
		const program = await startProgram(data);
		const untilMs = performance.now() + 100 + 800 * uniform();
		let isKilled = false;
		const death = new Promise<void>((resolve) => {
			setTimeout(() => {
				isKilled = true;
				void program.end('SIGKILL').then(resolve);
			}, untilMs - performance.now());
		});
		while (!isKilled) {
			const entry = reading(next);
			const answer = await fetch(`${program.address}/api/runs/${run}/entries`, {
				method: 'POST',
				headers: { 'Content-Type': 'application/json' },
				body: JSON.stringify({ entries: [entry] }),
			}).catch(() => null);
			if (answer?.ok) {
				acknowledged.add(entry.id);
				next++;
			}
			await new Promise((resolve) => setTimeout(resolve, 1000 / readingsPerSecond));
		}
		await death;
	}
	const program = await startProgram(data);
	const kept = await inJournal(program.address);
	await program.end('SIGTERM');
	const here = new Set(kept);
	return {
		kills,
		acknowledged: acknowledged.size,
		lost: [...acknowledged].filter((id) => !here.has(id)).length,
		twice: kept.length - here.size,
		outOfOrder: kept.filter((id, place) => id !== `r${place}`).length,
	};
}
