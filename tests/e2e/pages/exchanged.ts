// Files between two shops, past the interface.
import type { Server } from '../harness/headless';
import { ask } from './shop';

/** All that one shop has, customers included, is taken in by another. */
export async function passOn(from: Server, to: Server): Promise<void> {
  const made = await ask(from, 'bundle.make', { personal: true });
  const { file } = await ask(to, 'file.begin', { name: made.name });
  for (let at = 0; at < made.bytes; ) {
    const { base64 } = await ask(from, 'file.read', { file: made.file, from: at });
    await ask(to, 'file.add', { file, base64 });
    at += Buffer.from(base64, 'base64').length;
  }
  const { signers } = await ask(to, 'bundle.look', { file });
  // Whoever isn't known by name yet is called something from now on.
  const accepted = signers
    .filter(({ asks }) => asks)
    .map(({ device, name }) => ({ device, name: name || `Device ${device.slice(0, 4)}` }));
  await ask(to, 'bundle.take_in', { file, signers: accepted });
}
