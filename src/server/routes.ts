import { type Context, Hono } from 'hono';
import { namedInstrument, namedInstruments } from '#record/named-instrument.ts';
import { checkSetCard } from '#record/set-card-file.ts';
import { setName } from '#record/set-name.ts';
import type { Album } from '#storage/album.ts';
import { instrumentDrawer } from '#storage/instrument-drawer.ts';
import type { Shelf } from '#storage/shelf.ts';
import type { SqliteJournal } from '#storage/sqlite-journal.ts';
import type { Store } from '#storage/store.ts';
import {
	entriesAnswer,
	entriesAtOnce,
	entriesQuestion,
	keptAnswer,
	runsAnswer,
	runsAtOnce,
	setAnswer,
	setsAtOnce,
	shelfAnswer,
} from '#wire/messages.ts';

import { archiveRoute } from './archive-route.ts';
import type { HostBench } from './host-bench.ts';
import { hostRoute } from './host-route.ts';
import { photoRoute } from './photo-route.ts';
import { bodyOf, checked } from './question.ts';
import { reportRoute } from './report-route.ts';
import { sheetRoute } from './sheet-route.ts';

/** What the routes work on. */
export interface House {
	readonly shelf: Shelf;
	readonly journal: SqliteJournal;
	readonly album: Album;
	readonly store: Store;
	readonly nowMs: () => number;
	readonly host: HostBench;
}

/** Entries as they were kept: they were checked when they came, and the page checks them again. */
function entriesBody(context: Context, entries: string): Response {
	return context.body(`{"entries":${entries}}`, 200, { 'Content-Type': 'application/json' });
}

/** The routes below /api. */
export function apiRoutes(house: House): Hono {
	const { shelf, journal, nowMs, host } = house;
	const api = new Hono();
	api.get('/sets', async (context) => {
		const from = Number(context.req.query('from') ?? 0);
		if (!Number.isSafeInteger(from) || from < 0)
			return context.json({ fault: 'cannot show these sets: "from" has to be a whole number, 0 or more' }, 422);
		const { sets, total } = await shelf.find(context.req.query('find') ?? '', from, setsAtOnce);
		const runs = await journal.runCounts(sets.map(({ id }) => id));
		return context.json(
			checked(shelfAnswer, {
				total,
				sets: sets.map(({ id, card, changedAtMs }) => ({
					id,
					name: setName(card),
					year: card.year ?? null,
					changedAtMs,
					runs: runs.get(id) ?? { work: 0, practice: 0 },
					isSimulated: card.virtualSet !== undefined,
				})),
			}),
		);
	});
	const keep = async (request: Request, id: string | null) => {
		const body = await bodyOf(request);
		const parsed = checkSetCard(body);
		if (!parsed.ok) return parsed;
		const { id: own, ...card } = parsed.value;
		const named = id ?? own;
		const kept = await shelf.keep(named === undefined ? card : { ...card, id: named }, nowMs());
		return { ok: true as const, value: checked(setAnswer, { id: kept.id, card: kept.card }) };
	};
	api.post('/sets', async (context) => {
		const result = await keep(context.req.raw, null);
		return result.ok ? context.json(result.value, 201) : context.json({ fault: result.words }, 422);
	});
	api.get('/sets/:id', async (context) => {
		const found = await shelf.set(context.req.param('id'));
		if (!found) return context.json({ fault: 'there is no such set on the shelf: go back to the shelf' }, 404);
		return context.json(checked(setAnswer, { id: found.id, card: found.card }));
	});
	api.put('/sets/:id', async (context) => {
		const id = context.req.param('id');
		if (!(await shelf.set(id)))
			return context.json({ fault: 'there is no such set on the shelf: go back to the shelf' }, 404);
		const result = await keep(context.req.raw, id);
		return result.ok ? context.json(result.value) : context.json({ fault: result.words }, 422);
	});
	api.get('/sets/:id/avc-laws', async (context) =>
		context.json(checked(entriesAnswer, { entries: [...(await journal.avcLaws(context.req.param('id')))] })),
	);
	api.route('/sets', sheetRoute(house));
	api.route('/runs', reportRoute(house));
	api.route('/', photoRoute(house));
	api.route('/', archiveRoute(house));
	api.route('/host', hostRoute(host));
	const drawer = instrumentDrawer(house.store);
	api.get('/instruments', async (context) => context.json(checked(namedInstruments, await drawer.named())));
	api.put('/instruments/:which', async (context) => {
		const which = context.req.param('which');
		const parsed = namedInstrument.safeParse(await bodyOf(context.req.raw));
		if ((which !== 'generator' && which !== 'meter') || !parsed.success)
			return context.json({ fault: 'cannot keep this instrument: its place or its description is too long' }, 422);
		await drawer.name(which, parsed.data);
		return context.json(checked(namedInstruments, await drawer.named()));
	});
	api.get('/runs', async (context) =>
		context.json(
			checked(runsAnswer, {
				runs: [...(await journal.runs(context.req.query('set') ?? null, runsAtOnce))],
			}),
		),
	);
	api.get('/runs/:run/standing', async (context) =>
		entriesBody(context, await journal.standingText(context.req.param('run'))),
	);
	api.get('/runs/:run/entries', async (context) => {
		const from = Number(context.req.query('from') ?? 0);
		if (!Number.isSafeInteger(from) || from < 0)
			return context.json({ fault: 'cannot show these entries: "from" has to be a whole number, 0 or more' }, 422);
		return entriesBody(context, await journal.entriesText(context.req.param('run'), from, entriesAtOnce));
	});
	api.post('/runs/:run/entries', async (context) => {
		const parsed = entriesQuestion.safeParse(await bodyOf(context.req.raw));
		if (!parsed.success)
			return context.json(
				{ fault: `cannot keep these entries: ${parsed.error.issues[0]?.message ?? 'not entries'}` },
				422,
			);
		const run = context.req.param('run');
		if (parsed.data.entries.some((entry) => entry.run !== run))
			return context.json({ fault: 'cannot keep these entries: they belong to another run' }, 422);
		if (host.writes(run))
			return context.json({ fault: 'the instruments write this run now: this is kept as soon as they are done' }, 409);
		const moved = await journal.receive(parsed.data.entries);
		return context.json(checked(keptAnswer, { kept: parsed.data.entries.length, moved }));
	});
	api.get('/generator-checks', async (context) =>
		context.json(checked(entriesAnswer, { entries: [...(await journal.generatorChecks())] })),
	);
	api.all('*', (context) => context.json({ fault: 'there is nothing at this address' }, 404));
	return api;
}
