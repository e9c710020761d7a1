/** Fits IF curves off the page's own thread, so that the needle never waits. */
import { analyseResponse, type ResponseAnswer } from '#advice/response/response-answer.ts';
import { type ResponsePicture, responsePicture } from '#advice/response/response-picture.ts';
import type { ResponseQuestion } from '#advice/response/response-question.ts';

export interface AskedResponse {
	readonly number: number;
	readonly question: ResponseQuestion;
}
export type AnsweredResponse =
	| { readonly number: number; readonly answer: ResponseAnswer; readonly picture: ResponsePicture }
	| { readonly number: number; readonly fault: string };

addEventListener('message', ({ data }: MessageEvent<AskedResponse>) => {
	const { number, question } = data;
	let answered: AnsweredResponse;
	try {
		const analysis = analyseResponse(question);
		answered = { number, answer: analysis.answer, picture: responsePicture(analysis, question) };
	} catch (error) {
		answered = { number, fault: (error as Error).message };
	}
	postMessage(answered);
});
