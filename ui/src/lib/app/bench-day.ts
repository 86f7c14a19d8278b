/** The day by this device's clock and place: a bench day ends at midnight. */
export function benchDay(moment = new Date()): string {
  const two = (number: number) => String(number).padStart(2, '0');
  return `${moment.getFullYear()}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
}
