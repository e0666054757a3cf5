/** What a round is called where the breeder gives it no name: `Spikes, First flower in bed 4`. */
export function roundName(traits: readonly string[], beds: readonly string[]): string {
  const listed = (words: readonly string[], most: number): string =>
    words.length <= most
      ? words.join(', ')
      : `${words.slice(0, most).join(', ')} and ${words.length - most} more`;
  return `${listed(traits, 2)} in ${listed(beds, 2)}`;
}
