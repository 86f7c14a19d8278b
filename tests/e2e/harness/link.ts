/**
 * Runs in the page: goes to a place of the app by a link in it. An address that is set from outside
 * would cross the step back that a sheet makes in the history as it closes.
 */
export function followLink(address: string): void {
  const link = document.createElement('a');
  link.href = address;
  document.body.append(link);
  link.click();
  link.remove();
}
