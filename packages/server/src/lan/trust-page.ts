import { createServer, type RequestListener, type Server } from 'node:http';

/** What the page tells. */
export interface Trusting {
  /** The authority's certificate, DER. */
  readonly der: Uint8Array;
  /** Where the phone goes afterwards. */
  readonly origins: readonly string[];
}

const certificatePath = '/keelrow-authority.crt';

/**
 * A server without encryption, since the phone trusts nothing of ours yet, that has this page and the authority's
 * certificate and nothing else.
 */
export function trustServer(told: () => Trusting): Server {
  const answer: RequestListener = (request, response) => {
    const path = request.url?.split('?')[0];
    const isRead = request.method === 'GET' || request.method === 'HEAD';
    const headers = {
      'cache-control': 'no-store',
      'x-content-type-options': 'nosniff',
      'content-security-policy':
        "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'; base-uri 'none'",
    };
    const end = (status: number, type: string, body: string | Uint8Array): void => {
      response.writeHead(status, { ...headers, 'content-type': type });
      response.end(request.method === 'HEAD' ? undefined : body);
    };
    if (isRead && path === '/') return end(200, 'text/html; charset=utf-8', pageOf(told()));
    // The media type by which phones know what it is; source: RFC 2585, section 4.1, and Apple’s and Android’s practice.
    if (isRead && path === certificatePath) return end(200, 'application/x-x509-ca-cert', told().der);
    return end(
      404,
      'text/plain; charset=utf-8',
      'There is nothing here but the page at / and the certificate.\n',
    );
  };
  return createServer(answer);
}

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');

/** Steps on the phones as their makers name them; from memory, iOS 17 and Android 14. */
function pageOf({ origins }: Pick<Trusting, 'origins'>): string {
  const links = origins.map((origin) => `<a href="${escaped(origin)}">${escaped(origin)}</a>`).join(' or ');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Keelrow: trust the office computer</title>
<style>
:root { color-scheme: light dark; }
body { font: 1.125rem/1.5 system-ui, sans-serif; max-width: 36rem; margin: 0 auto; padding: 1rem 1.1rem 4rem; background: light-dark(#fbfcf8, #182125); color: light-dark(#1b262c, #e8ece4); }
h1 { font-size: 1.5rem; line-height: 1.25; } h2 { font-size: 1.2rem; margin-top: 2rem; }
a { color: light-dark(#483c9f, #bcb3fb); }
.get { display: block; padding: 0.9rem 1rem; text-align: center; font-weight: 600; background: #483c9f; color: #fff; border-radius: 4px; text-decoration: none; }
li { margin-block: 0.5rem; }
.note { border-left: 4px solid light-dark(#2a5c42, #8ccaa3); padding-left: 0.8rem; }
</style>
</head>
<body>
<h1>Let this phone trust the office computer</h1>
<p>Notes go from the phone to the office computer over your own network, encrypted. For that the phone must know the office computer. You do this once on each phone.</p>
<p><a class="get" href="${certificatePath}">Fetch the certificate</a></p>
<h2>iPhone and iPad</h2>
<ol>
<li>Open this page in Safari. Touch “Fetch the certificate” and allow the download.</li>
<li>Open Settings. At the top stands <b>Profile Downloaded</b>: touch it, then <b>Install</b>, and give your passcode.</li>
<li>Go to Settings, <b>General</b>, <b>About</b>, <b>Certificate Trust Settings</b>, at the very end. Switch on the one named Keelrow.</li>
</ol>
<h2>Android</h2>
<ol>
<li>Touch “Fetch the certificate”. If the phone asks, keep the file.</li>
<li>Open Settings and search for <b>CA certificate</b>. It lies under <b>Security</b>, <b>Encryption and credentials</b>, <b>Install a certificate</b>; makers name these a little differently.</li>
<li>The phone warns that somebody could read along. That holds for certificates of strangers; this one is of your own computer and is good for your own network alone. Choose <b>Install anyway</b>, then the file keelrow-authority.</li>
<li>Use Chrome or another browser built on it. Firefox does not take such certificates unless its own settings say so.</li>
</ol>
<h2>Is it the right one?</h2>
<p>Before you switch it on, the phone can show the certificate’s SHA-256 fingerprint. Compare it with the one on the office computer’s own screen, on the page “Phones &amp; people”. This page does not show it: whoever could forge the certificate on its way could forge the page too.</p>
<h2>Then</h2>
<p>Open ${links}: it must come without a warning. Now scan the code on the page “Phones &amp; people” of the office computer.</p>
<p class="note">The certificate is good for computers of your own network and for nothing else: no page of the internet can be faked with it. You can take it off the phone again where you put it on.</p>
</body>
</html>
`;
}
