import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, vi } from 'vitest';
import { Bench } from '#bench/bench.ts';
import { gateBeforeContact } from '#bench/gate-order.ts';
import { runState } from '#bench/run-state.ts';
import { servePanel } from '#cli/panel-server.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import type { PanelAnswer, ScpiPanel } from '#instruments/virtual/scpi-panel.ts';
import { virtualInstruments } from '#instruments/virtual/virtual-instruments.ts';
import { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import { application } from '#server/application.ts';
import { HostBench } from '#server/host-bench.ts';
import type { OutputMark } from '#server/host-generator.ts';
import { sqliteAlbum } from '#storage/album.ts';
import { instrumentDrawer } from '#storage/instrument-drawer.ts';
import { sqliteShelf } from '#storage/shelf.ts';
import { sqliteJournal } from '#storage/sqlite-journal.ts';
import { openStore } from '#storage/store.ts';
import type { HostPlan, HostState } from '#wire/host-messages.ts';
import { exampleCard, factsOf } from './example-set.ts';
import { SimulatedClock } from './simulated-instruments.ts';

const closing: (() => Promise<unknown> | unknown)[] = [];

/** Ends every bench that was begun. */
export async function endBenches(): Promise<void> {
	for (const close of closing.splice(0).reverse()) await close();
}

/** The demo set's facts. */
export const facts = factsOf(exampleCard());
/** The run that is worked. */
export const run = 'driven-run';

/**
 * A server's bench on a served virtual set, whose readings and waits take no time but on their own clock.
 * @param change `lineMs`: what each message takes all the same, so that work cannot be done before a test has looked at it;
 * `mark`: what keeping that an output is on does otherwise
 */
export async function hostWith(
	change: {
		readonly identity?: string;
		readonly awayMs?: number;
		readonly lineMs?: number;
		readonly mark?: Partial<OutputMark>;
	} = {},
) {
	const clock = new SimulatedClock();
	const set = new VirtualSet(tamperedSet(tm517, 7), 7, null);
	const panel = virtualInstruments(set, clock.now);
	panel.line('HAND:VOL 10');
	const lines: string[] = [];
	const fast = {
		note: (error: number) => panel.note(error),
		line: (line: string): PanelAnswer => {
			lines.push(line);
			const { reply, tookMs } = panel.line(line);
			clock.ms += tookMs;
			return { reply: line === '*IDN?' && change.identity ? change.identity : reply, tookMs: change.lineMs ?? 0 };
		},
	};
	const served = await servePanel(fast as unknown as ScpiPanel, 0);
	const store = await openStore(mkdtempSync(join(tmpdir(), 'peakwright-host-')), 0);
	if (!served.ok || !store.ok) throw new Error('cannot begin');
	const journal = sqliteJournal(store.value);
	let count = 0;
	const host = new HostBench({
		journal,
		nowMs: Date.now,
		newId: () => `host-${count++}`,
		waitMs: clock.wait,
		awayMs: change.awayMs ?? 30_000,
		mark: { ...instrumentDrawer(store.value), ...change.mark },
	});
	closing.push(
		() => store.value.close(),
		() => served.value.stop(),
		() => host.stop(),
	);
	const app = application(
		{
			shelf: sqliteShelf(store.value),
			journal,
			album: sqliteAlbum(store.value),
			store: store.value,
			nowMs: () => 0,
			host,
		},
		'dist/page',
	);
	const bench = await Bench.begin({ run, journal, nowMs: () => 0, newId: () => `page-${count++}` }, facts.card, {});
	const pass = async (contact: string): Promise<void> => {
		for (let gate = gateBeforeContact(contact, bench.state, facts); gate; ) {
			const yes = [
				...gate.confirmations.map(({ id }) => [id, 'yes']),
				...gate.measurements.map(({ id }) => [id, '0 V']),
			];
			await bench.passGate(gate, Object.fromEntries(yes) as Record<string, string>);
			gate = gateBeforeContact(contact, bench.state, facts);
		}
	};
	const instrument = { place: `127.0.0.1:${served.value.port}`, description: null };
	const begin = (plan: HostPlan) => host.begin({ run, generator: instrument, meter: instrument, plan });
	const ended = (): Promise<NonNullable<NonNullable<HostState['work']>['end']>> =>
		vi.waitFor(
			() => {
				const end = host.state.work?.end;
				if (!end) throw new Error('not ended');
				return end;
			},
			{ timeout: 20_000, interval: 5 },
		);
	const state = async () => runState(run, await journal.standing(run));
	const isOn = () => panel.line('OUTP?').reply === '1';
	return {
		host,
		app,
		bench,
		panel,
		set,
		lines,
		pass,
		begin,
		ended,
		state,
		isOn,
		instrument,
		/** What a program finds that is started on the same data after this one was killed. */
		drawer: instrumentDrawer(store.value),
		cut: () => served.value.stop(),
	};
}
/** One curve of the IF. */
export const curve: Extract<HostPlan, { kind: 'IF curve' }> = { kind: 'IF curve', role: 'base', adjusters: [] };
const contact = 'the converter signal grid';

/** Fulfilled when the first reading is there. */
export async function underWay(bench: Awaited<ReturnType<typeof hostWith>>): Promise<void> {
	await vi.waitFor(() => expect(bench.host.state.work?.reading).not.toBe(null), { timeout: 5000, interval: 2 });
}
/** A bench whose run has passed the gates of the IF step. */
export async function ready(change: Parameters<typeof hostWith>[0] = {}) {
	const own = await hostWith(change);
	const refused = await own.begin(curve);
	expect(refused).toMatchObject({
		ok: false,
		words: expect.stringMatching(/has to be answered for (.+): nothing was begun/),
	});
	await own.pass(/answered for (.+): nothing/.exec(refused.ok ? '' : refused.words)?.[1] ?? contact);
	return own;
}
