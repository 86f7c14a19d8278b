import type { Material } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';

export const MATERIALS = {
  aluminium_wrought: 'material.aluminium_wrought',
  aluminium_die_cast: 'material.aluminium_die_cast',
  steel: 'material.steel',
  cast_iron: 'material.cast_iron',
} as const satisfies Record<Material, PlainKey>;
