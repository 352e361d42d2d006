import { readFile } from 'node:fs/promises';
import type { Server } from 'node:http';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize, sep } from 'node:path';

const MIME: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
};

/**
 * A plain web host as anybody has one: files of a folder below some path, nothing else known. It can be handed
 * another folder, and can go away as the network does.
 */
export class StaticHost {
  private server: Server | null = null;
  private port = 0;
  /** Every path asked for. */
  readonly asked: string[] = [];

  constructor(
    public folder: string,
    readonly path: string,
  ) {}

  get address(): string {
    return `http://localhost:${this.port}${this.path}`;
  }

  /** The same host by another name, in this network: not a secure context. */
  addressAs(name: string): string {
    return `http://${name}:${this.port}${this.path}`;
  }

  async start(): Promise<void> {
    const server = createServer((request, response) => {
      const { pathname } = new URL(request.url ?? '/', 'http://localhost');
      void this.read(decodeURIComponent(pathname)).then(
        ({ name, body }) => {
          const type = MIME[extname(name)] ?? 'application/octet-stream';
          response.writeHead(200, { 'content-type': type }).end(body);
        },
        () => response.writeHead(404).end(),
      );
    });
    this.server = server;
    await new Promise<void>((done) => server.listen(this.port, '0.0.0.0', done));
    this.port = (server.address() as AddressInfo).port;
  }

  /** The network is gone: nobody answers at this port. */
  async stop(): Promise<void> {
    const { server } = this;
    this.server = null;
    if (!server) return;
    await new Promise<void>((done) => {
      server.close(() => done());
      server.closeAllConnections();
    });
  }

  private async read(path: string): Promise<{ name: string; body: Buffer }> {
    this.asked.push(path);
    if (!path.startsWith(this.path)) throw new Error(path);
    const below = path.slice(this.path.length);
    const name = below === '' ? 'index.html' : below;
    const file = normalize(join(this.folder, name));
    if (!file.startsWith(this.folder + sep)) throw new Error(path);
    return { name, body: await readFile(file) };
  }
}
