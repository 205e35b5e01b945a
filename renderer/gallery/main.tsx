import { createRoot } from 'react-dom/client';
import { Gallery } from './Gallery.tsx';

const root = document.getElementById('root');
if (!root) throw new Error('gallery.html has no root element');
createRoot(root).render(<Gallery shown={window.location.hash.slice(1)} />);
