import { setTimeout as wait } from 'node:timers/promises';
import type { Done, NotDone } from '#instruments/instrument.ts';
import type { InstrumentDescription } from '#record/instrument-description.ts';
import { shownWords } from '#record/shown-words.ts';
import type { InstrumentAddress } from './link.ts';
import { type Failure, ScpiClient } from './scpi-client.ts';

const usualReplyMs = 2000;
/** Pauses between the tries of one group of messages: an instrument whose plug is wriggled is back at once, one that is plugged in again within seconds. */
const pausesMs = [10, 20, 50, 100, 200, 500, 1000, 2000];
/** An instrument that is there but does not answer sense is asked so often. */
const mostSilences = 3;
/** Errors that are read from a queue at most; SCPI-1999 asks for at least two places. */
const mostErrors = 32;
/** Groups of messages that may wait for their turn (chosen: more than any screen or sweep asks for at once). */
const mostWaiting = 64;

/** The answer to a question in words, or why there is none. */
export type Said = { readonly kind: 'said'; readonly text: string } | NotDone;

/** An instrument and its description: identified at each connection, every group of messages seen through and its errors read. */
export class ScpiSession {
	readonly #client: ScpiClient;
	readonly #description: InstrumentDescription;
	#isIdentified = false;
	#identity: string | null = null;
	/** One group at a time, so that the errors read after it are its own. */
	#last: Promise<unknown> = Promise.resolve();
	#waiting = 0;

	constructor(address: InstrumentAddress, description: InstrumentDescription) {
		this.#description = description;
		this.#client = new ScpiClient(address, {
			terminator: description.terminator ?? 'LF',
			replyWithinMs: description.replyWithinMs ?? usualReplyMs,
		});
	}

	get name(): string {
		return `${this.#description.name} at ${this.#client.name}`;
	}

	/** What it says it is. *RST is never sent: the instrument stays as the person has set it. */
	async identity(): Promise<Said> {
		const failed = await this.#seenThrough(async () => null);
		return failed ?? { kind: 'said', text: this.#identity ?? '' };
	}

	/** Sends messages in order, waits until they are carried out, and reads what the instrument has to object. Settings are absolute, so that a lost group is sent again. */
	async tell(messages: readonly string[]): Promise<Done> {
		const failed = await this.#seenThrough(async () => {
			for (const message of messages) {
				const failed = this.#client.tell(message);
				if (failed) return failed;
			}
			const carriedOut = await this.#client.ask('*OPC?');
			return carriedOut.kind === 'failed' ? carriedOut : this.#errors();
		});
		return failed ?? { kind: 'done' };
	}

	/** Asks, and reads what the instrument has to object. */
	async ask(message: string): Promise<Said> {
		let text = '';
		const failed = await this.#seenThrough(async () => {
			const answer = await this.#client.ask(message);
			if (answer.kind === 'failed') return this.#because(answer);
			if (answer.kind === 'line') text = answer.text;
			if (answer.kind === 'block') text = Buffer.from(answer.bytes).toString('latin1');
			return this.#errors();
		});
		return failed ?? { kind: 'said', text };
	}

	/** Ends the connection. */
	close(): void {
		this.#client.close();
	}

	/** A question that the instrument did not understand stays without an answer: its error queue says why. */
	async #because(failure: Failure): Promise<Failure | NotDone> {
		if (failure.why !== 'no answer') return failure;
		const objection = await this.#errors();
		return objection && !('why' in objection) ? objection : failure;
	}

	/** Waits for its turn; `null` when all went well; otherwise why not, after as many tries as make sense. */
	#seenThrough(group: () => Promise<Failure | NotDone | null>): Promise<NotDone | null> {
		if (this.#waiting >= mostWaiting)
			return Promise.resolve({ kind: 'failed', words: `${this.name}: ${mostWaiting} messages wait for it already` });
		this.#waiting++;
		const turn = this.#last.then(async () => {
			this.#waiting--;
			return this.#tried(group);
		});
		this.#last = turn;
		return turn;
	}

	async #tried(group: () => Promise<Failure | NotDone | null>): Promise<NotDone | null> {
		let silences = 0;
		for (const pauseMs of [...pausesMs, null]) {
			const failed = (await this.#ready()) ?? (await group());
			if (!failed) return null;
			if (!('why' in failed)) return failed;
			if (failed.why === 'no answer' || failed.why === 'garbled') silences++;
			if (failed.why === 'closed' || pauseMs === null || silences === mostSilences)
				return { kind: 'failed', words: failed.words };
			await wait(pauseMs);
		}
		return null;
	}

	/** Connected, and known to be the instrument that is meant. */
	async #ready(): Promise<Failure | NotDone | null> {
		if (this.#client.isOpen && this.#isIdentified) return null;
		this.#isIdentified = false;
		const unreached = await this.#client.open();
		if (unreached) return unreached;
		const answer = await this.#client.ask('*IDN?');
		if (answer.kind === 'failed') return answer;
		const text = answer.kind === 'line' ? answer.text : '';
		const { identity } = this.#description;
		if (identity !== undefined && !text.includes(identity)) {
			return {
				kind: 'refused',
				words: `${this.#client.name} says it is "${shownWords(text, 80)}"; the description wants "${identity}": give the right place or description`,
			};
		}
		if (this.#identity !== null && text !== this.#identity) {
			return {
				kind: 'refused',
				words: `${this.#client.name} was "${shownWords(this.#identity, 80)}" and now says it is "${shownWords(text, 80)}"; nothing more was sent`,
			};
		}
		this.#identity = text;
		this.#isIdentified = true;
		// What stands in the queue from before is not ours.
		const old = await this.#errors();
		return old && 'why' in old ? old : null;
	}

	/** Reads the error queue until it is empty. */
	async #errors(): Promise<Failure | NotDone | null> {
		const query = this.#description.errorQueue ?? 'SYST:ERR?';
		if (query === 'none') return null;
		const objections: string[] = [];
		for (let count = 0; count < mostErrors; count++) {
			const answer = await this.#client.ask(query);
			if (answer.kind === 'failed') return answer;
			const text = answer.kind === 'line' ? answer.text : '';
			const number = /^[+-]?\d+/.exec(text);
			if (!number)
				return {
					kind: 'failed',
					words: `${this.#client.name}: cannot read an error number from "${shownWords(text, 80)}"`,
				};
			if (Number(number[0]) === 0) break;
			objections.push(text.slice(0, 120));
		}
		return objections.length === 0
			? null
			: { kind: 'refused', words: `${this.#client.name} objects: ${objections.join('; ')}` };
	}
}
