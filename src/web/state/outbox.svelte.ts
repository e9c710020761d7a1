import type { Journal } from '#bench/journal.ts';
import type { RunEntry } from '#record/run.ts';
import { type Counted, OutboxStore } from './outbox-store.ts';
import { fetchStanding, sendEntries } from './server.ts';

/** What the program could not take yet. */
interface Waiting extends Counted {
	/** Entries of this tab among them. */
	readonly ids: ReadonlySet<string>;
	/** Why, in a sentence for the person. */
	readonly words: string;
}

/** Most entries, and most characters of them, in one sending; well below what the program takes. */
const entriesAtOnce = 200;
const charactersAtOnce = 500_000;
/** Pause before the program is asked again. */
const pauseMs = 1000;
/** Looks for what is not sent yet, before another writer takes the run, and the pause between them. */
const sentLooks = 30;
const sentLookMs = 100;
/** One tab sends at a time, so that the order is kept. */
const turnToSend = 'peakwright outbox';

/** How many of these entries go into one sending: at least one. */
function oneSending(entries: readonly RunEntry[]): number {
	let characters = 0;
	const tooMany = entries.findIndex((entry) => {
		characters += JSON.stringify(entry).length;
		return characters > charactersAtOnce;
	});
	return tooMany === -1 ? entries.length : Math.max(1, tooMany);
}

/**
 * Every happening on its way to the journal. It is put on this browser's disk first and taken out when the program has kept it,
 * so that neither a reload nor a dead program loses it; what was left over from another day is sent when the page opens.
 */
class Outbox implements Journal {
	/** What waits since the program failed to take it; `null` while all goes through. */
	waiting: Waiting | null = $state.raw(null);
	/** Run of which another browser's writer was found at work. */
	contested: string | null = $state.raw(null);
	readonly #store = new OutboxStore();
	/** Entries of this tab that are not yet known to be kept. */
	readonly #unsent = new Set<string>();
	#isSending = false;
	#isAsked = false;

	constructor() {
		void this.#send();
	}

	async append(entries: readonly RunEntry[]): Promise<void> {
		const plain = $state.snapshot(entries) as RunEntry[];
		try {
			await this.#store.add(plain);
		} catch {
			await this.#sendStraight(plain);
			return;
		}
		for (const { id } of plain) this.#unsent.add(id);
		// While the program does not answer it is asked again by the clock alone.
		if (this.waiting === null) void this.#send();
		else await this.#tellWaiting(this.waiting.words);
	}

	async standing(run: string): Promise<readonly RunEntry[]> {
		// Read before the program is asked: what is kept in between is then seen twice, and never not at all.
		const { entries: own } = await this.#store
			.first(run, Number.MAX_SAFE_INTEGER)
			.catch(() => ({ entries: [] as RunEntry[] }));
		const answer = await fetchStanding(run);
		if (!answer.ok) throw new Error(answer.words);
		const here = new Set(answer.value.entries.map(({ id }) => id));
		return [...answer.value.entries, ...own.filter(({ id }) => !here.has(id))];
	}

	/** Whether the program has kept all of a run; waits for it a while. */
	async sent(run: string): Promise<boolean> {
		for (let look = 0; look < sentLooks; look++) {
			const { entries } = await this.#store.first(run, 1).catch(() => ({ entries: [] as RunEntry[] }));
			if (entries.length === 0) return true;
			await new Promise((next) => setTimeout(next, sentLookMs));
		}
		return false;
	}

	/** The browser keeps nothing for the page: the program has to keep it now, or it does not count. */
	async #sendStraight(entries: readonly RunEntry[]): Promise<void> {
		const [first] = entries;
		if (!first) return;
		if (this.waiting !== null) throw new Error(this.waiting.words);
		const answer = await sendEntries(first.run, entries);
		if (!answer.ok) throw new Error(answer.words);
	}

	async #tellWaiting(words: string): Promise<void> {
		this.waiting = { ...(await this.#store.count()), ids: new Set(this.#unsent), words };
	}

	/** Sends what is there until nothing is left or the program fails to take it; then tries again after a pause. */
	async #send(): Promise<void> {
		this.#isAsked = true;
		if (this.#isSending) return;
		this.#isSending = true;
		try {
			while (this.#isAsked) {
				this.#isAsked = false;
				const fault = await navigator.locks.request(turnToSend, () => this.#sendAll());
				if (fault === null) this.waiting = null;
				else await this.#tellWaiting(fault);
			}
		} catch {
			// The browser keeps nothing for the page: there is nothing to send.
		} finally {
			this.#isSending = false;
		}
		if (this.waiting !== null) setTimeout(() => void this.#send(), pauseMs);
	}

	/** Sends every run's entries in their order; one that the program does not take holds up its own run only. Returns what it said. */
	async #sendAll(): Promise<string | null> {
		let fault: string | null = null;
		for (const run of await this.#store.runs()) fault = (await this.#sendRun(run)) ?? fault;
		return fault;
	}

	async #sendRun(run: string): Promise<string | null> {
		for (;;) {
			const { keys, entries } = await this.#store.first(run, entriesAtOnce);
			if (entries.length === 0) return null;
			const count = oneSending(entries);
			const answer = await sendEntries(run, entries.slice(0, count));
			if (!answer.ok) return answer.words;
			if (answer.value.moved > 0) this.contested = run;
			await this.#store.remove(keys.slice(0, count));
			for (const { id } of entries.slice(0, count)) this.#unsent.delete(id);
		}
	}
}

export const outbox = new Outbox();
