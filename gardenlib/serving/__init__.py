"""A class on phones: the pages served from one laptop, without internet."""
