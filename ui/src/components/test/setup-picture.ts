import type { BoreDrawing, ValvePosition } from '$lib/generated/commands';
import { sectionOf } from '../drawing/bore-section';
import { layOut, type Layout } from '../drawing/layout';

/** The bore as one answer has it: small, without lettering. The core's stroke is where it regulates. */
export function pictureOf(drawing: BoreDrawing, position: ValvePosition): Layout {
  const { section } = sectionOf(drawing);
  // Stroke counts against the spring; at rest the valve has gone back by it.
  const back = drawing.spring_on_left ? drawing.stroke_m : -drawing.stroke_m;
  const absent = position === 'valve_absent';
  const springless = absent || position === 'spring_out';
  return layOut({
    section: {
      ...section,
      ports: section.ports.map((port) => ({ ...port, label: '' })),
      chambers: [],
      passages: [],
      springs: springless ? [] : (section.springs ?? []),
      lands: absent ? [] : section.lands,
      stems: absent ? [] : section.stems,
    },
    displacement_m: position === 'held_regulating' ? 0 : back,
    leaks: [],
    openings: [],
    width: 200,
    em: 0.5,
    measure: () => 0,
    inches: false,
  });
}
