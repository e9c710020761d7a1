import type { Proof } from '#advice/tests/proof.ts';
import type { ChartPoint } from '#draw/response-chart.ts';
import type { Language } from '#record/language.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { TestReading } from '#record/test-reading.ts';
import type { Paper } from './printed-document.ts';
import type { PrintedPhoto } from './printed-photo.ts';

/** An adjuster's turns in a run, added up. */
export interface NetTurn {
	readonly adjuster: string;
	/** Eighths, clockwise positive; `null`: one was not counted. */
	readonly eighths: number | null;
	/** Decibels gained over all its turns; `null` where nothing tells. */
	readonly gainDb: number | null;
}

/** One turn of an adjuster, as {@link NetTurn}. */
export type LoggedTurn = NetTurn;

/** Dial errors of one band, frequency received minus mark, along the scale: as it was found and as it was left. */
export interface DialErrors {
	/** By its id on the card. */
	readonly band: string;
	readonly found: readonly { readonly dialHz: number; readonly errorHz: number }[];
	readonly left: readonly { readonly dialHz: number; readonly errorHz: number }[];
}

/** What a report is made from: a run, read to its end. */
export interface ReportPaper {
	readonly facts: SetFacts;
	readonly proof: Proof;
	readonly readings: readonly TestReading[];
	readonly turns: readonly NetTurn[];
	/** The IF curve as it was found and as it was left, decibels below its own peak; the same one twice is none before. */
	readonly curves: {
		readonly found: readonly ChartPoint[];
		readonly left: readonly ChartPoint[];
		/** Files that they came in, or meters that swept them by themselves, and when those were taken in, milliseconds since 1970. */
		readonly files: readonly { readonly name: string; readonly atMs: number }[];
	} | null;
	readonly dials: readonly DialErrors[];
	/** Turn by turn, the first first. */
	readonly log: readonly LoggedTurn[];
	readonly notes: readonly string[];
	/** Questions of the sheet with what was answered. */
	readonly answers: readonly { readonly question: string; readonly answer: string }[];
	/** The set's photographs, oldest first. */
	readonly photos: readonly PrintedPhoto[];
	/** First and last day of the run, as printed. */
	readonly from: string;
	readonly to: string;
	/** Name and address of whoever did the work; nothing when it was left free. */
	readonly shop: string | null;
	readonly paper: Paper;
	readonly language: Language;
}
