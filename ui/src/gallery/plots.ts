import type { PlotData } from '../components/plot/plot';

const line = Array.from({ length: 25 }, (_, index) => 60 + 10 * index);
/** A made-up shape for looking at, not a calculation. */
const settle = (x: number, at: number, droop: number) => at - droop * Math.exp(-(x - at) / 25);

export const FEED: PlotData = {
  x: { label: 'line pressure, psi', name: 'line', unit: 'psi', decimals: 0 },
  y: { label: 'feed, psi', name: 'feed', unit: 'psi', decimals: 1, from: 60, to: 155 },
  series: [
    {
      label: 'as measured',
      tone: 'outside',
      stroke: 'solid',
      points: line.map((x) => ({ x, y: Math.min(x, settle(x, 128.6, 8)) })),
      band: line.map((x) => ({
        x,
        low: Math.min(x - 0.5, settle(x, 123, 6)),
        high: Math.min(x + 0.5, settle(x, 145, 12)),
      })),
    },
    {
      label: 'as new',
      tone: 'ink',
      stroke: 'dotted',
      points: line.map((x) => ({ x, y: Math.min(x, settle(x, 119.2, 3)) })),
    },
  ],
  limits: [
    { y: 123, label: 'highest specified', from: 130 },
    { y: 115, label: 'lowest specified', from: 130 },
  ],
};

export const MEASURED: PlotData = {
  x: { label: 'line pressure, kPa', name: 'line', unit: 'kPa', decimals: 0, from: 300, to: 2200 },
  y: { label: 'feed, kPa', name: 'feed', unit: 'kPa', decimals: 0 },
  series: [
    {
      label: 'before',
      tone: 'outside',
      stroke: 'solid',
      points: [
        { x: 300, y: null },
        { x: 790, y: null },
        { x: 800, y: 800 },
        { x: 1000, y: 870 },
        { x: 1400, y: 990 },
        { x: 1800, y: 1150 },
        { x: 2200, y: 1330 },
      ],
    },
    {
      label: 'sleeve and new valve',
      tone: 'within',
      stroke: 'chain',
      points: [800, 1000, 1400, 1800, 2200].map((x, index) => ({ x, y: 805 + 9 * index })),
      band: [800, 1000, 1400, 1800, 2200].map((x, index) => ({
        x,
        low: 790 + 8 * index,
        high: 825 + 12 * index,
      })),
    },
  ],
  limits: [{ y: 850, label: 'highest specified' }],
  marks: [
    { x: 1000, y: 880, u_y: 30, u_x: 25, label: 'road, hot' },
    { x: 1800, y: 1120, u_y: 35, label: 'stall' },
  ],
  gaps: [{ from: 300, to: 790, label: 'not regulating' }],
};
