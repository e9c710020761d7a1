import type { Page } from 'playwright-core';

/** Milliseconds from a click on the button to the painting of a heading that begins with these words. */
export async function clickToHeadingMs(page: Page, button: string, heading: string): Promise<number> {
	await page.getByRole('button', { name: button }).first().waitFor();
	return page.evaluate(
		({ button, heading }) =>
			new Promise<number>((resolve) => {
				const target = [...document.querySelectorAll('button')].find(({ textContent }) =>
					textContent?.startsWith(button),
				);
				const watch = new MutationObserver(() => {
					if (!document.querySelector('h1')?.textContent?.startsWith(heading)) return;
					watch.disconnect();
					// Painted when the frame after the change has begun.
					requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - from)));
				});
				watch.observe(document.body, { childList: true, subtree: true, characterData: true });
				const from = performance.now();
				target?.click();
			}),
		{ button, heading },
	);
}
