import { describe, expect, expectTypeOf, it } from 'vitest';
import { type ArgumentNames, fill } from './format';

describe('filling a message', () => {
  it('puts arguments in', () => {
    expect(fill('likely {low} to {high}', 'en', { low: '4', high: '27' })).toBe('likely 4 to 27');
  });
  it('chooses the plural that the language has', () => {
    const text = '{count, plural, one {# reading} other {# readings}}';
    expect(fill(text, 'en', { count: 1 })).toBe('1 reading');
    expect(fill(text, 'en', { count: 3 })).toBe('3 readings');
  });
  it('leaves markup alone: text is text', () => {
    expect(fill('a <b>{x}</b>', 'en', { x: '<i>' })).toBe('a <b><i></b>');
  });
});

it('the compiler knows a message’s arguments', () => {
  expectTypeOf<ArgumentNames<'{low} to {high}'>>().toEqualTypeOf<'low' | 'high'>();
  expectTypeOf<
    ArgumentNames<'{count, plural, one {# reading} other {# readings in {place}}}'>
  >().toEqualTypeOf<'count' | 'place'>();
  expectTypeOf<ArgumentNames<'no arguments'>>().toEqualTypeOf<never>();
});
