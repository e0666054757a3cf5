/** For each code the fewest of its last parts, as divided by hyphens, by which it is told from all the others. */
export function shortTails(codes: readonly string[]): ReadonlyMap<string, string> {
  const tail = (code: string, parts: number): string => code.split('-').slice(-parts).join('-');
  return new Map(
    codes.map((code) => {
      const all = code.split('-').length;
      for (let parts = 1; parts < all; parts++) {
        const end = tail(code, parts);
        if (!codes.some((other) => other !== code && tail(other, parts) === end)) return [code, end];
      }
      return [code, code];
    }),
  );
}
