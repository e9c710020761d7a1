import { Hono } from 'hono';
import { streamSSE } from 'hono/streaming';
import { trial } from '#instruments/scpi/description-trial.ts';
import { sessionAt } from '#instruments/scpi/driven-gear.ts';
import { descriptionLines } from '#record/description-lines.ts';
import { genericInstrument } from '#record/instrument-description.ts';
import type { Parsed } from '#record/parsed.ts';
import {
	hostState,
	readingAnswer,
	readingQuestion,
	settingAnswer,
	settingQuestion,
	type TrialAnswer,
	type TrialQuestion,
	trialAnswer,
	trialQuestion,
	workAct,
	workQuestion,
} from '#wire/host-messages.ts';
import type { HostBench } from './host-bench.ts';
import { namedPlace } from './named-place.ts';
import { bodyOf, checked } from './question.ts';

/** States are told no more often than this; the last of them always. */
const tellEveryMs = 150;

const unclear = (what: string, words: string | undefined): { readonly fault: string } => ({
	fault: `cannot ${what}: ${words ?? 'not understood'}`,
});

/** Says who is there and tries one line of the description. */
async function tried({ instrument, line }: TrialQuestion): Promise<Parsed<TrialAnswer>> {
	const place = namedPlace(instrument);
	if (!place.ok) return place;
	const session = sessionAt(place.value);
	if (!session.ok) return session;
	try {
		const identity = await session.value.identity();
		if (identity.kind !== 'said') return { ok: false, words: identity.words };
		const own = line === null ? null : descriptionLines(place.value.description ?? genericInstrument)[line];
		if (own === undefined) return { ok: false, words: 'there is no such line in this description' };
		return {
			ok: true,
			value: { identity: identity.text, trial: own === null ? null : await trial(session.value, own) },
		};
	} finally {
		session.value.close();
	}
}

/** The host's instruments: how they stand, as events; work to be begun, paused and left; descriptions to be tried. */
export function hostRoute(host: HostBench): Hono {
	const api = new Hono();
	api.get('/', (context) => context.json(checked(hostState, host.state)));
	// A page is there as long as it reads these events.
	api.get('/events', (context) =>
		streamSSE(context, async (stream) => {
			let told: () => void = () => undefined;
			let isChanged = true;
			const leave = host.attach(() => {
				isChanged = true;
				told();
			});
			stream.onAbort(() => {
				leave();
				told();
			});
			while (!stream.aborted && !host.isStopping) {
				isChanged = false;
				await stream.writeSSE({ event: 'state', data: JSON.stringify(checked(hostState, host.state)) });
				await stream.sleep(tellEveryMs);
				if (!isChanged && !stream.aborted)
					await new Promise<void>((next) => {
						told = next;
					});
			}
			leave();
		}),
	);
	api.post('/work', async (context) => {
		const question = workQuestion.safeParse(await bodyOf(context.req.raw));
		if (!question.success) return context.json(unclear('begin this', question.error.issues[0]?.message), 422);
		const begun = await host.begin(question.data);
		return begun.ok ? context.json(checked(hostState, begun.value), 201) : context.json({ fault: begun.words }, 409);
	});
	api.post('/act', async (context) => {
		const act = workAct.safeParse(await bodyOf(context.req.raw));
		if (!act.success) return context.json(unclear('do this', act.error.issues[0]?.message), 422);
		if (!host.act(act.data)) return context.json({ fault: 'nothing is under way that this is for' }, 409);
		return context.json(checked(hostState, host.state));
	});
	api.post('/trial', async (context) => {
		const question = trialQuestion.safeParse(await bodyOf(context.req.raw));
		if (!question.success) return context.json(unclear('try this', question.error.issues[0]?.message), 422);
		if (host.isBusy)
			return context.json({ fault: 'the instruments are at work: try descriptions when they are done' }, 409);
		const answer = await tried(question.data);
		return answer.ok ? context.json(checked(trialAnswer, answer.value)) : context.json({ fault: answer.words }, 422);
	});
	api.post('/set', async (context) => {
		const question = settingQuestion.safeParse(await bodyOf(context.req.raw));
		if (!question.success) return context.json(unclear('set this generator', question.error.issues[0]?.message), 422);
		const set = await host.set(question.data);
		return set.ok ? context.json(checked(settingAnswer, { asks: set.value })) : context.json({ fault: set.words }, 422);
	});
	api.post('/reading', async (context) => {
		const question = readingQuestion.safeParse(await bodyOf(context.req.raw));
		if (!question.success) return context.json(unclear('read this meter', question.error.issues[0]?.message), 422);
		if (host.isBusy)
			return context.json({ fault: 'the instruments are at work: read the meter when they are done' }, 409);
		const read = await host.meter.read(question.data.meter);
		return read.ok
			? context.json(checked(readingAnswer, { reading: read.value }))
			: context.json({ fault: read.words }, 422);
	});
	return api;
}
