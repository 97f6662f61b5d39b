import open from 'open';

/** Says where the page is, and opens a browser on it where that is wished; the address serves where none opens. */
export async function showAddress(address: string, opensBrowser: boolean): Promise<void> {
  console.log(`The cloth is at ${address}`);
  console.log('Ctrl-C ends it; what is under work is kept.');
  if (!opensBrowser) return;
  try {
    const browser = await open(address);
    browser.on('error', tellNone);
  } catch {
    tellNone();
  }
}

function tellNone(): void {
  console.error('tenter: no browser could be opened; open that address yourself');
}
