import { trimNumber } from '../repeat/length.ts';

/** A time as people say it: `12 s`, `3 min 20 s`, `5 h 10 min`. */
export function formatTime(seconds: number): string {
  const whole = Math.max(1, Math.round(seconds));
  if (whole < 60) return `${whole} s`;
  const minutes = Math.round(whole / 60);
  if (whole < 600) return `${Math.floor(whole / 60)} min ${whole % 60} s`;
  if (minutes < 60) return `${minutes} min`;
  return `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}

/** Bytes in MB or GB. */
export function formatBytes(bytes: number): string {
  return bytes < 1e9 ? `${trimNumber(bytes / 1e6, 1)} MB` : `${trimNumber(bytes / 1e9, 1)} GB`;
}
