/** A level that jumps to and fro between the same two values. */
export interface LevelJumps {
	readonly count: number;
	/** Size of the jumps, decibels. */
	readonly sizeDb: number;
}

/** A jump is at least this high, decibels, and so many times the middle step between readings (chosen: no hand creeps so). */
const leastJumpDb = 1.5;
const timesMiddle = 10;
/** Readings that stand still on either side of a jump, and by how much of it they may move. */
const beside = 3;
const stillShare = 0.25;
/** Jumps of one pair of levels differ by no more than this share of their size. */
const alikeShare = 0.3;
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
