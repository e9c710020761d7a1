import type { ResponseAnswer } from '#advice/response/response-answer.ts';
import type { ResponsePicture } from '#advice/response/response-picture.ts';
import type { ResponseQuestion } from '#advice/response/response-question.ts';
import type { AnsweredResponse, AskedResponse } from './response-worker.ts';
import ResponseWorker from './response-worker.ts?worker';

/** Puts questions about IF curves to a worker, one at a time; of those that come meanwhile only the latest is asked. */
export class ResponseDesk {
	answer: ResponseAnswer | null = $state.raw(null);
	picture: ResponsePicture | null = $state.raw(null);
	fault: string | null = $state(null);
	isBusy = $state(false);
	readonly #worker = new ResponseWorker();
	#number = 0;
	#waiting: ResponseQuestion | null = null;

	constructor() {
		this.#worker.addEventListener('message', ({ data }: MessageEvent<AnsweredResponse>) => this.#answered(data));
		this.#worker.addEventListener('error', ({ message }) =>
			this.#answered({ number: this.#number, fault: `it could not be reckoned: ${message}` }),
		);
	}

	ask(question: ResponseQuestion): void {
		if (this.isBusy) {
			this.#waiting = question;
			return;
		}
		this.isBusy = true;
		this.#number++;
		this.#worker.postMessage({ number: this.#number, question } satisfies AskedResponse);
	}

	/** Takes back what was answered and what is still asked. */
	clear(): void {
		this.#number++;
		this.#waiting = null;
		this.isBusy = false;
		this.answer = null;
		this.picture = null;
		this.fault = null;
	}

	#answered(data: AnsweredResponse): void {
		if (data.number !== this.#number) return;
		this.isBusy = false;
		this.fault = 'fault' in data ? data.fault : null;
		if ('answer' in data) {
			this.answer = data.answer;
			this.picture = data.picture;
		}
		const next = this.#waiting;
		this.#waiting = null;
		if (next) this.ask(next);
	}

	close(): void {
		this.#worker.terminate();
	}
}
