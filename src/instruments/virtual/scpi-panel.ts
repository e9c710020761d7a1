/** One thing that a panel can do, under a header written as SCPI writes it: capitals are the short form, brackets may be left out. */
export interface PanelCommand {
	/** Such as `[:SOURce]:FREQuency[:CW]`. */
	readonly header: string;
	/** Takes what was set; the number of an error, or 0. */
	readonly set?: (argument: string) => number;
	/** Answers the question. */
	readonly ask?: () => string;
	/** How long the answer takes. */
	readonly askMs?: number;
}

/** What a line came to. */
export interface PanelAnswer {
	/** The answers of a line, joined by semicolons; `null` when nothing was asked. */
	readonly reply: string | null;
	readonly tookMs: number;
}

/** Error numbers of SCPI-1999 with their texts [scpi-1999], from memory. */
const errorTexts: Readonly<Record<number, string>> = {
	0: 'No error',
	[-102]: 'Syntax error',
	[-104]: 'Data type error',
	[-108]: 'Parameter not allowed',
	[-109]: 'Missing parameter',
	[-113]: 'Undefined header',
	[-131]: 'Invalid suffix',
	[-222]: 'Data out of range',
	[-224]: 'Illegal parameter value',
	[-350]: 'Queue overflow',
	[-363]: 'Input buffer overrun',
};

const longestQueue = 16;
/** Bits of the event status register [ieee-488-2]: operation complete, and the class that an error number belongs to. */
const operationComplete = 1;
const powerOn = 128;

function eventBit(error: number): number {
	if (error <= -400) return 4;
	if (error <= -300) return 8;
	return error <= -200 ? 16 : 32;
}

/** A header as SCPI writes it, as a test of one that was sent (in capitals, with its first colon). */
function headerTest(header: string): RegExp {
	const source = header.replace(/(\[?):([A-Za-z]+)(\]?)/g, (_, open: string, node: string) => {
		const short = node.replace(/[a-z]/g, '');
		return `(?::(?:${short}|${node.toUpperCase()}))${open === '' ? '' : '?'}`;
	});
	return new RegExp(`^${source}$`);
}

/** Parts of a line between semicolons that stand outside quotes. */
const parts = (line: string): readonly string[] => line.match(/(?:[^;"]|"[^"]*"?)+/g) ?? [];

/**
 * The front of an instrument that speaks SCPI: common commands of IEEE 488.2, headers in long and short form, an error queue with standard numbers.
 * It knows neither wire nor clock.
 */
export class ScpiPanel {
	readonly #identity: string;
	readonly #commands: readonly (PanelCommand & { readonly test: RegExp })[];
	readonly #reset: () => void;
	readonly #errors: number[] = [];
	#events = powerOn;
	#eventsEnabled = 0;
	#serviceEnabled = 0;

	/** @param reset what *RST does */
	constructor(identity: string, commands: readonly PanelCommand[], reset: () => void) {
		this.#identity = identity;
		this.#reset = reset;
		this.#commands = [
			...commands,
			{ header: ':SYSTem:ERRor[:NEXT]', ask: () => this.#nextError() },
			{ header: ':SYSTem:ERRor:COUNt', ask: () => String(this.#errors.length) },
			{ header: ':SYSTem:VERSion', ask: () => '1999.0' },
		].map((command) => ({ ...command, test: headerTest(command.header) }));
	}

	/** Notes an error from outside the line, such as one too long to be taken. */
	note(error: number): void {
		this.#events |= eventBit(error);
		if (this.#errors.length < longestQueue) this.#errors.push(error);
		else this.#errors[longestQueue - 1] = -350;
	}

	/** Does what a line says. A header after a semicolon goes on from the last one's branch, as SCPI has it. */
	line(text: string): PanelAnswer {
		const replies: string[] = [];
		let tookMs = 0;
		let branch = '';
		for (const part of parts(text)) {
			const [, sent = '', argument = ''] = /^\s*(\S+)\s*(.*?)\s*$/.exec(part) ?? [];
			if (sent === '') continue;
			const isQuery = sent.endsWith('?');
			const plain = (isQuery ? sent.slice(0, -1) : sent).toUpperCase();
			if (plain.startsWith('*')) {
				const reply = this.#common(plain, isQuery, argument);
				if (reply !== null) replies.push(reply);
				continue;
			}
			const header = plain.startsWith(':') ? plain : `${branch}:${plain}`;
			branch = header.slice(0, header.lastIndexOf(':'));
			const command = this.#commands.find(({ test }) => test.test(header));
			if (!command || !(isQuery ? command.ask : command.set)) this.note(-113);
			else if (isQuery && command.ask) {
				replies.push(command.ask());
				tookMs += command.askMs ?? 0;
			} else if (argument === '') this.note(-109);
			else {
				const error = command.set?.(argument) ?? 0;
				if (error !== 0) this.note(error);
			}
		}
		return { reply: replies.length > 0 ? replies.join(';') : null, tookMs };
	}

	#nextError(): string {
		const error = this.#errors.shift() ?? 0;
		return `${error},"${errorTexts[error] ?? 'Device-specific error'}"`;
	}

	get #status(): number {
		const errors = this.#errors.length > 0 ? 4 : 0;
		const events = (this.#events & this.#eventsEnabled) !== 0 ? 32 : 0;
		const summary = ((errors | events) & this.#serviceEnabled) !== 0 ? 64 : 0;
		return errors | events | summary;
	}

	#common(header: string, isQuery: boolean, argument: string): string | null {
		if (isQuery) return this.#commonQuery(header);
		switch (header) {
			case '*CLS':
				this.#errors.length = 0;
				this.#events = 0;
				break;
			case '*RST':
				this.#reset();
				break;
			case '*OPC':
				this.#events |= operationComplete;
				break;
			case '*WAI':
				break;
			case '*ESE':
			case '*SRE':
				this.#enable(header, argument);
				break;
			default:
				this.note(-113);
		}
		return null;
	}

	#commonQuery(header: string): string | null {
		switch (header) {
			case '*IDN':
				return this.#identity;
			case '*OPC':
				return '1';
			case '*TST':
				return '0';
			case '*STB':
				return String(this.#status);
			case '*ESE':
				return String(this.#eventsEnabled);
			case '*SRE':
				return String(this.#serviceEnabled);
			case '*ESR': {
				const events = this.#events;
				this.#events = 0;
				return String(events);
			}
			default:
				this.note(-113);
				return null;
		}
	}

	#enable(header: string, argument: string): void {
		const mask = Number(argument);
		if (argument === '') this.note(-109);
		else if (!Number.isInteger(mask)) this.note(-104);
		else if (mask < 0 || mask > 255) this.note(-222);
		else if (header === '*ESE') this.#eventsEnabled = mask;
		else this.#serviceEnabled = mask & ~64;
	}
}
