/** What every measurement tells at its end, as one line of JSON: figures, and the peak of the process's memory. */
export function tell(figures) {
  console.log(JSON.stringify({ ...figures, peakMb: Math.round(process.resourceUsage().maxRSS / 1024) }));
}

/** Runs something and returns its result with the seconds it took. */
export async function timed(act) {
  const start = performance.now();
  const result = await act();
  return { result, seconds: (performance.now() - start) / 1000 };
}
