/** A measured or computed value with its standard uncertainty (one standard deviation, same unit); `null` where it cannot be had. */
export interface Estimate {
	readonly value: number;
	readonly uncertainty: number | null;
}
