import { addressWords, type InstrumentAddress, type Link, openLink } from './link.ts';
import { type Reply, ReplyReader } from './reply-reader.ts';

/** What one exchange came to. */
export type Exchange =
	| Exclude<Reply, { kind: 'garbled' }>
	| {
			readonly kind: 'failed';
			readonly why: 'no connection' | 'cut off' | 'no answer' | 'garbled' | 'closed';
			readonly words: string;
	  };

/** Why an exchange came to nothing. */
export type Failure = Extract<Exchange, { kind: 'failed' }>;

/** How a client speaks. */
export interface ClientSettings {
	readonly terminator: 'LF' | 'CR LF' | 'CR';
	readonly replyWithinMs: number;
}

const ends = { LF: '\n', 'CR LF': '\r\n', CR: '\r' } as const;

/**
 * Speaks to one instrument, one message at a time. A connection that failed is left at once, since a late answer would be taken
 * for the answer to the next question; it is made anew only by `open`, so that nobody speaks to an instrument that has not said who it is.
 * Nothing here rejects.
 */
export class ScpiClient {
	readonly #address: InstrumentAddress;
	readonly #settings: ClientSettings;
	#isClosed = false;
	#link: Link | null = null;
	#reader: ReplyReader;
	/** The question that is out, if any. */
	#settle: ((exchange: Exchange) => void) | null = null;

	constructor(address: InstrumentAddress, settings: ClientSettings) {
		this.#address = address;
		this.#settings = settings;
		this.#reader = new ReplyReader(settings.terminator);
	}

	get name(): string {
		return addressWords(this.#address);
	}

	get isOpen(): boolean {
		return this.#link !== null;
	}

	/** Makes the connection; `null` when it is there. */
	async open(): Promise<Failure | null> {
		if (this.#link) return null;
		if (this.#isClosed) return this.#failed('closed', 'closed');
		let link: Link;
		try {
			link = await openLink(this.#address);
		} catch (error) {
			return this.#failed('no connection', `${(error as Error).message}; is it on, and is the place right?`);
		}
		if (this.#isClosed) {
			link.close();
			return this.#failed('closed', 'closed');
		}
		this.#link = link;
		this.#reader = new ReplyReader(this.#settings.terminator);
		link.onBytes((bytes) => this.#take(link, bytes));
		link.onEnd((words) => {
			if (this.#link === link) this.#drop(this.#failed('cut off', words));
		});
		return null;
	}

	/** Sends a message that has no answer. */
	tell(message: string): Failure | null {
		if (/[^\x20-\x7e]/.test(message)) throw new Error(`invalid message: ${JSON.stringify(message)}, expected one line`);
		if (this.#settle) throw new Error(`invalid order: ${message}, expected the answer before to be awaited`);
		if (!this.#link) return this.#failed('no connection', 'not connected');
		this.#link.send(message + ends[this.#settings.terminator]);
		return null;
	}

	/** Sends a question and waits for its answer. */
	async ask(message: string): Promise<Exchange> {
		const failed = this.tell(message);
		if (failed) return failed;
		return new Promise((resolve) => {
			const late = setTimeout(() => this.#drop(this.#silence(message)), this.#settings.replyWithinMs);
			this.#settle = (exchange) => {
				clearTimeout(late);
				this.#settle = null;
				resolve(exchange);
			};
		});
	}

	/** Ends the connection for good. */
	close(): void {
		this.#isClosed = true;
		this.#drop(this.#failed('closed', 'closed'));
	}

	#failed(why: Failure['why'], words: string): Failure {
		return { kind: 'failed', why, words: `${this.name}: ${words}` };
	}

	#silence(message: string): Failure {
		const { replyWithinMs, terminator } = this.#settings;
		const begun = this.#reader.begun;
		const hint = begun.includes('\r')
			? `; what came has no ${terminator} but a CR: set "terminator" to "CR"`
			: this.#reader.hasBegun
				? `; it began with "${begun}" and did not end`
				: '';
		return this.#failed('no answer', `no answer to ${message} within ${replyWithinMs} ms${hint}`);
	}

	#take(link: Link, bytes: Uint8Array): void {
		if (this.#link !== link) return;
		for (const reply of this.#reader.take(bytes)) {
			if (reply.kind === 'garbled') this.#drop(this.#failed('garbled', reply.words));
			else if (this.#settle) this.#settle(reply);
			else {
				// An answer to no question: whatever comes next could not be told apart.
				this.#drop(this.#failed('garbled', 'it sent what was not asked for'));
			}
			if (this.#link !== link) return;
		}
	}

	/** Leaves the connection; the question that is out fails so. */
	#drop(failure: Failure): void {
		const link = this.#link;
		this.#link = null;
		link?.close();
		this.#settle?.(failure);
	}
}
