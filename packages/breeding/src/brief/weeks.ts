/**
 * Weeks of the year as days of an average year. By ISO 8601 week 1 is the week with the year's first Thursday, so its
 * Monday lies from 29 December to 4 January: at 1 January on average. What a genet does in an average season is
 * therefore held against these days.
 */
export const firstDayOfWeek = (week: number): number => 7 * (week - 1) + 1;
export const lastDayOfWeek = (week: number): number => 7 * week;
