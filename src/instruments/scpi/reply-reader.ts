import { shownWords } from '#record/shown-words.ts';

/** What came from an instrument: one reply, or why what came cannot be one. */
export type Reply =
	| { readonly kind: 'line'; readonly text: string }
	| { readonly kind: 'block'; readonly bytes: Uint8Array }
	| { readonly kind: 'garbled'; readonly words: string };

/** Longest reply that is waited for, bytes (chosen: far above any reading, far below what could fill the machine). */
const longestLine = 1 << 20;
const longestBlock = 16 << 20;

const lineFeed = 0x0a;
const carriageReturn = 0x0d;
const hash = 0x23;

/** Bytes that belong to a text reply: printable ASCII, tabs; 488.2 sends nothing else outside blocks. */
const isText = (byte: number): boolean => (byte >= 0x20 && byte <= 0x7e) || byte === 0x09 || byte === carriageReturn;

/**
 * Cuts a stream of bytes into replies of IEEE 488.2 [ieee-488-2]: lines, and blocks of definite length (#, number of digits, length, bytes).
 * After a garbled reply nothing more can be told apart: the connection has to be made anew.
 */
export class ReplyReader {
	readonly #end: number;
	#held: Uint8Array = new Uint8Array(0);
	#length = 0;
	/** How far the held bytes were searched for an end of line. */
	#seen = 0;

	constructor(terminator: 'LF' | 'CR LF' | 'CR') {
		this.#end = terminator === 'CR' ? carriageReturn : lineFeed;
	}

	/** Whether part of a reply has come. */
	get hasBegun(): boolean {
		return this.#length > 0;
	}

	/** What has come of a reply that is not whole, for a person to see. */
	get begun(): string {
		return Buffer.from(this.#held.subarray(0, Math.min(this.#length, 60))).toString('latin1');
	}

	/** Takes bytes as they come and gives back the replies that are whole. */
	take(bytes: Uint8Array): readonly Reply[] {
		this.#hold(bytes);
		const replies: Reply[] = [];
		for (let reply = this.#next(); reply; reply = this.#next()) {
			replies.push(reply);
			if (reply.kind === 'garbled') {
				this.#drop(this.#length);
				break;
			}
		}
		return replies;
	}

	#hold(bytes: Uint8Array): void {
		const wanted = this.#length + bytes.length;
		if (wanted > this.#held.length) {
			const wider = new Uint8Array(Math.max(wanted, 2 * this.#held.length, 256));
			wider.set(this.#held.subarray(0, this.#length));
			this.#held = wider;
		}
		this.#held.set(bytes, this.#length);
		this.#length = wanted;
	}

	#drop(count: number): void {
		this.#held.copyWithin(0, count, this.#length);
		this.#length -= count;
		this.#seen = 0;
	}

	#next(): Reply | null {
		// Ends of lines left over from before: after a block, or of an instrument that sends both.
		let empty = 0;
		while (empty < this.#length && (this.#held[empty] === lineFeed || this.#held[empty] === carriageReturn)) empty++;
		if (empty > 0) this.#drop(empty);
		if (this.#length === 0) return null;
		return this.#held[0] === hash && this.#isBlockHead() ? this.#block() : this.#line();
	}

	/** A # may also begin a number such as #HFF: a block has a digit from 1 to 9 after it. */
	#isBlockHead(): boolean {
		const digit = this.#held[1];
		return this.#length < 2 || (digit !== undefined && digit >= 0x30 && digit <= 0x39);
	}

	#block(): Reply | null {
		if (this.#length < 2) return null;
		const digits = (this.#held[1] as number) - 0x30;
		if (digits === 0)
			return { kind: 'garbled', words: 'it sent a block of indefinite length: ask for one of definite length' };
		if (this.#length < 2 + digits) return null;
		const head = Buffer.from(this.#held.subarray(2, 2 + digits)).toString('latin1');
		const length = /^\d+$/.test(head) ? Number(head) : Number.NaN;
		if (!(length <= longestBlock))
			return {
				kind: 'garbled',
				words: `it announced a block of "${shownWords(head)}" bytes; the most is ${longestBlock}`,
			};
		if (this.#length < 2 + digits + length) return null;
		const bytes = this.#held.slice(2 + digits, 2 + digits + length);
		this.#drop(2 + digits + length);
		return { kind: 'block', bytes };
	}

	#line(): Reply | null {
		for (; this.#seen < this.#length; this.#seen++) {
			const byte = this.#held[this.#seen] as number;
			if (byte === this.#end) {
				const text = Buffer.from(this.#held.subarray(0, this.#seen)).toString('latin1').trim();
				this.#drop(this.#seen + 1);
				return { kind: 'line', text };
			}
			if (!isText(byte))
				return { kind: 'garbled', words: `it sent a byte ${byte} that belongs to no reply: is the baud rate right?` };
			if (this.#seen >= longestLine)
				return { kind: 'garbled', words: `it sent more than ${longestLine} bytes without an end of line` };
		}
		return null;
	}
}
