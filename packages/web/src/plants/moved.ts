/** The row to which a key leads from the active one; null where the key means something else. */
export function moved(key: string, active: number, total: number, page: number): number | null {
  const steps: Record<string, number> = {
    ArrowDown: active + 1,
    ArrowUp: active - 1,
    PageDown: active + page,
    PageUp: active - page,
    Home: 0,
    End: total - 1,
  };
  const to = Object.hasOwn(steps, key) ? steps[key]! : null;
  return to === null || total === 0 ? null : Math.min(total - 1, Math.max(0, to));
}
