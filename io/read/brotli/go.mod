module github.com/andybalholm/brotli

go 1.26.0
